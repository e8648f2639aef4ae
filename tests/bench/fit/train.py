"""Fits the encoder to rooms: what it gives for speech in a room is to be what it gives for the same
speech without, as far as the decoder's keys and values tell them apart. Nothing is transcribed, no
command is known to it. How: docs/hearing.md.

  OPENBLAS_NUM_THREADS=1 python3 train.py --synthetic FOLDER --out fit.pt
"""

import argparse
import math
import time
import wave
from pathlib import Path

import numpy as np
import torch
import torch.multiprocessing as processes

from encoder import Encoder, keys_and_values
from room import RATE, Rooms

RANK, KERNEL_RANK = 32, 32
LONGEST, SHORTEST = 5 * RATE, RATE // 5

options = argparse.ArgumentParser()
options.add_argument("--synthetic", type=Path, required=True, help="WAV files at 16 kHz")
options.add_argument("--natural", type=Path, help="the same; then there is clatter in the rooms too")
options.add_argument("--out", type=Path, required=True)
options.add_argument("--begin", type=Path, help="what was learnt before")
options.add_argument("--minutes", type=float, default=60)
options.add_argument("--rate", type=float, default=1e-3)
options.add_argument("--batch", type=int, default=8)
options.add_argument("--share", type=float, default=0.6, help="of natural speech, if any")
options.add_argument("--seed", type=int, default=1)
chosen = options.parse_args()
torch.manual_seed(chosen.seed)
torch.set_num_threads(1)


def clips(folder):
    """The speech of every file, without the quiet at its ends; long ones in pieces."""
    found = []
    for path in sorted(folder.glob("*.wav")):
        with wave.open(str(path)) as file:
            assert (file.getframerate(), file.getnchannels(), file.getsampwidth()) == (RATE, 1, 2)
            sound = np.frombuffer(file.readframes(file.getnframes()), np.int16)
        if len(sound) < SHORTEST:
            continue
        level = np.abs(sound.astype(np.int32))
        loud = np.flatnonzero(level >= level.max() / 100)
        sound = sound[loud[0] : loud[-1] + 1]
        count = max(1, math.ceil(len(sound) / (0.8 * LONGEST)))
        pieces = np.array_split(sound, count)
        found += [piece for piece in pieces if SHORTEST <= len(piece) <= LONGEST and piece.std() > 1]
    return found


def produce(rooms, teacher, queue):
    """Batches and what they are to become, from a process of its own."""
    torch.set_num_threads(1)
    choose = np.random.default_rng(chosen.seed + 7)
    while True:
        kind = rooms[-1 if choose.random() < chosen.share else 0]
        in_room, alone = kind.batch(chosen.batch)
        with torch.no_grad():
            queue.put((in_room, teacher(torch.from_numpy(alone)).numpy()))


def main():
    folders = [folder for folder in (chosen.synthetic, chosen.natural) if folder]
    found = [clips(folder) for folder in folders]
    clatter = len(found) > 1
    for name, kind in zip(("synthetic", "natural"), found):
        print(f"{name}: {len(kind)} clips, {sum(map(len, kind)) / RATE:.0f} s", flush=True)
    teacher = Encoder()
    for parameter in teacher.parameters():
        parameter.requires_grad_(False)
    tests = [Rooms(kind, 99, clatter) for kind in found]
    with torch.no_grad():
        hidden = teacher(torch.from_numpy(tests[0].batch(chosen.batch)[1]))
        # All keys and values count alike.
        eyes = torch.cat([weights / (hidden @ weights).std() for weights in keys_and_values()], 1)
    distance = lambda one, other: ((one - other) @ eyes).pow(2).mean()
    held = []
    for rooms in tests:
        batches = [map(torch.from_numpy, rooms.batch(chosen.batch)) for _ in range(6)]
        held.append([(in_room, teacher(alone)) for in_room, alone in batches])

    net = Encoder(RANK, KERNEL_RANK)
    if chosen.begin:
        net.load_state_dict(torch.load(chosen.begin))

    def told():
        with torch.no_grad():
            return [np.mean([distance(net(a), b).item() for a, b in kind]) for kind in held]

    factors, rest = [], []
    for name, parameter in net.named_parameters():
        (factors if name[-1] in "AB" else rest).append(parameter)
    learner = torch.optim.AdamW(
        [
            {"params": factors, "lr": chosen.rate},
            {"params": rest, "lr": chosen.rate / 10},
        ],
        weight_decay=0.0,
        betas=(0.9, 0.98),
    )
    full = [group["lr"] for group in learner.param_groups]
    print("before: synthetic, natural", told(), flush=True)

    queue = processes.Queue(6)
    rooms = [Rooms(kind, chosen.seed + at, clatter) for at, kind in enumerate(found)]
    processes.Process(target=produce, args=(rooms, teacher, queue), daemon=True).start()
    began, step, mean = time.time(), 0, None
    while (gone := (time.time() - began) / 60 / chosen.minutes) < 1:
        pace = min(1, (step + 1) / 40) * (0.02 + 0.98 * 0.5 * (1 + math.cos(math.pi * gone)))
        for group, rate in zip(learner.param_groups, full):
            group["lr"] = rate * pace
        in_room, wanted = map(torch.from_numpy, queue.get())
        loss = distance(net(in_room), wanted)
        learner.zero_grad()
        loss.backward()
        size = torch.nn.utils.clip_grad_norm_(factors + rest, 1.0)
        if not torch.isfinite(size):
            continue
        learner.step()
        step += 1
        mean = loss.item() if mean is None else 0.98 * mean + 0.02 * loss.item()
        if step % 100 == 0:
            print(step, f"{time.time() - began:.0f} s", f"{mean:.4f}", flush=True)
        if step % 400 == 0:
            print("held", told(), flush=True)
            torch.save(net.state_dict(), chosen.out)
    print("after", step, told())
    torch.save(net.state_dict(), chosen.out)


if __name__ == "__main__":
    main()
