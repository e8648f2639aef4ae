"""Fits the encoder to rooms. What it gives for speech in a room is to be what it gives for the same
speech without: measured by what the decoder then expects, word by word, and by the distance as far as
the decoder's keys and values tell them apart. How: docs/hearing.md.

  OPENBLAS_NUM_THREADS=1 python3 train.py --synthetic FOLDER --natural FOLDER --out fit.pt
"""

import argparse
import json
import math
import time
import wave
from pathlib import Path

import numpy as np
import torch
import torch.multiprocessing as processes

from decoder import BEGIN, END, Decoder
from encoder import Encoder, keys_and_values
from room import RATE, Rooms

RANK, KERNEL_RANK = 32, 32
SHORTEST = RATE // 5
# Samples that a thing put down has at least, and that its loudness is taken over.
FEWEST = RATE // 50
# As assistant/ear/neural/beam.ts has it: how many tokens a sound may hold.
TOKENS_A_SECOND, TOKENS_AT_LEAST = 10, 4
# Of what the decoder expects only so many tokens are kept: the rest together is next to nothing.
KEPT = 24

options = argparse.ArgumentParser()
options.add_argument("--synthetic", type=Path, required=True, help="WAV files at 16 kHz")
options.add_argument("--natural", type=Path, help="the same; then there is clatter in the rooms too")
options.add_argument("--things", type=Path, help="the same: recordings to learn beside")
options.add_argument("--out", type=Path, required=True)
options.add_argument("--begin", type=Path, help="what was learnt before")
options.add_argument("--minutes", type=float, default=60)
options.add_argument("--rate", type=float, default=1e-3)
options.add_argument("--batch", type=int, default=8)
options.add_argument("--share", type=float, default=0.55, help="of natural speech, if any")
options.add_argument("--far", type=float, default=1.0, help="weight of the distance")
options.add_argument("--said", type=float, default=0.4, help="share of what was really said, if known")
options.add_argument("--longest", type=float, default=5, help="seconds of a clip")
options.add_argument("--joined", type=int, default=0, help="pieces of natural speech put together")
options.add_argument("--seed", type=int, default=1)
chosen = options.parse_args()
torch.manual_seed(chosen.seed)
torch.set_num_threads(1)
LONGEST = int(chosen.longest * RATE)


def joined(pieces, count):
    """Longer talk: pieces that follow each other in the folder, with a little quiet between."""
    choose = np.random.default_rng(chosen.seed + 3)
    made = []
    while len(made) < count:
        at = choose.integers(len(pieces))
        most = choose.uniform(0.5, 1) * LONGEST
        parts = [pieces[at]]
        while at + 1 < len(pieces) and sum(map(len, parts)) + len(pieces[at + 1]) < most:
            at += 1
            parts += [np.zeros(int(choose.uniform(0.05, 0.5) * RATE), np.int16), pieces[at]]
        if len(parts) > 1 and sum(map(len, parts)) <= LONGEST:
            made.append(np.concatenate(parts))
    return made


def recordings(folder):
    """Things put down, each of level 1 where it is loudest."""
    found = []
    for path in sorted(folder.glob("*.wav")):
        sound = samples(path).astype(np.float32)
        if len(sound) >= FEWEST:
            level = np.sqrt(np.convolve(sound**2, np.full(FEWEST, 1 / FEWEST), "same").max())
            if level > 1:
                found.append(sound / level)
    return found


def samples(path):
    with wave.open(str(path)) as file:
        assert (file.getframerate(), file.getnchannels(), file.getsampwidth()) == (RATE, 1, 2)
        return np.frombuffer(file.readframes(file.getnframes()), np.int16)


def clips(folder):
    """The speech of every file, without the quiet at its ends, and its tokens where they are known;
    long ones in pieces."""
    index = folder / "tokens.json"
    known = json.loads(index.read_text()) if index.exists() else {}
    found = []
    for path in sorted(folder.glob("*.wav")):
        sound = samples(path)
        if len(sound) < SHORTEST:
            continue
        level = np.abs(sound.astype(np.int32))
        loud = np.flatnonzero(level >= level.max() / 100)
        sound = sound[loud[0] : loud[-1] + 1]
        count = max(1, math.ceil(len(sound) / (0.8 * LONGEST)))
        tokens = known.get(path.name) if count == 1 else None
        for piece in np.array_split(sound, count):
            if SHORTEST <= len(piece) <= LONGEST and piece.std() > 1:
                found.append((piece, tokens))
    return [piece for piece, _ in found], [tokens for _, tokens in found]


class Teacher:
    """What the package's own model makes of the speech alone."""

    def __init__(self, decoder):
        self.encoder, self.decoder = Encoder(), decoder
        for parameter in self.encoder.parameters():
            parameter.requires_grad_(False)

    def lesson(self, kind, known, size):
        """One batch: sound in rooms, what the encoder gives alone, tokens, and what the decoder
        expects after each: tokens and their shares, none after a row's end."""
        with torch.no_grad():
            in_room, alone, at = kind.batch(size)
            hidden = self.encoder(torch.from_numpy(alone))
            unknown = [row for row, clip in enumerate(at) if known[clip] is None]
            if unknown:
                most = TOKENS_AT_LEAST + math.ceil(alone.shape[1] / RATE * TOKENS_A_SECOND)
                for row, tokens in zip(unknown, self.decoder.write(hidden[unknown], most)):
                    # A clip is written once: how it was drawn changes little.
                    known[at[row]] = (tokens, False)
            rows = [known[clip] if isinstance(known[clip], tuple) else (known[clip], True) for clip in at]
            length = max(len(tokens) for tokens, _ in rows) + 1
            before = torch.full((size, length), END)
            said = torch.full((size, length), END)
            counts = torch.zeros(size, length)
            sure = torch.zeros(size, 1)
            for row, (tokens, is_said) in enumerate(rows):
                before[row, : len(tokens) + 1] = torch.tensor([BEGIN, *tokens])
                said[row, : len(tokens) + 1] = torch.tensor([*tokens, END])
                counts[row, : len(tokens) + 1] = 1 / (len(tokens) + 1)
                sure[row] = chosen.said if is_said else 0
            shares, expected = self.decoder(hidden, before).exp().topk(KEPT, -1)
            shares = shares / shares.sum(-1, keepdim=True)
            shares = torch.cat((shares * (1 - sure[..., None]), sure.expand(size, length)[..., None]), -1)
            expected = torch.cat((expected, said[..., None]), -1)
            shares = shares * counts[..., None] / size
            return in_room, hidden.numpy(), before.numpy(), expected.numpy(), shares.numpy()


def produce(rooms, known, teacher, queue):
    """Lessons, from a process of its own."""
    torch.set_num_threads(1)
    choose = np.random.default_rng(chosen.seed + 7)
    while True:
        which = len(rooms) - 1 if choose.random() < chosen.share else 0
        queue.put(teacher.lesson(rooms[which], known[which], chosen.batch))


def main():
    folders = [folder for folder in (chosen.synthetic, chosen.natural) if folder]
    found, known = zip(*(clips(folder) for folder in folders))
    if chosen.joined:
        longer = joined(found[-1], chosen.joined)
        found[-1].extend(longer)
        known[-1].extend([None] * len(longer))
    clatter = len(found) > 1
    for folder, kind, tokens in zip(folders, found, known):
        texts = sum(one is not None for one in tokens)
        print(f"{folder}: {len(kind)} clips, {sum(map(len, kind)) / RATE:.0f} s, {texts} known", flush=True)
    decoder = Decoder()
    teacher = Teacher(decoder)
    things = recordings(chosen.things) if chosen.things else []
    print(f"{len(things)} things", flush=True)
    tests = [Rooms(kind, 99, clatter, things) for kind in found]
    with torch.no_grad():
        hidden = teacher.encoder(torch.from_numpy(tests[0].batch(chosen.batch)[1]))
        # All keys and values count alike.
        eyes = torch.cat([weights / (hidden @ weights).std() for weights in keys_and_values()], 1)
    held = [
        [teacher.lesson(rooms, tokens, chosen.batch) for _ in range(6)]
        for rooms, tokens in zip(tests, known)
    ]
    net = Encoder(RANK, KERNEL_RANK)
    if chosen.begin:
        net.load_state_dict(torch.load(chosen.begin))

    def losses(lesson):
        """How far from it, and how little the decoder expects what it is to expect, per token."""
        in_room, alone, before, expected, shares = map(torch.from_numpy, lesson)
        hidden = net(in_room)
        far = ((hidden - alone) @ eyes).pow(2).mean()
        words = decoder(hidden, before).gather(2, expected)
        return far, -(words * shares).sum()

    def told():
        with torch.no_grad():
            each = [np.mean([[x.item() for x in losses(one)] for one in kind], 0) for kind in held]
        return " ".join(f"{far:.4f} {words:.4f}" for far, words in each)

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
    print("held before", told(), flush=True)

    queue = processes.Queue(6)
    rooms = [Rooms(kind, chosen.seed + at, clatter, things) for at, kind in enumerate(found)]
    processes.Process(target=produce, args=(rooms, known, teacher, queue), daemon=True).start()
    began, step, mean = time.time(), 0, None
    while (gone := (time.time() - began) / 60 / chosen.minutes) < 1:
        pace = min(1, (step + 1) / 40) * (0.02 + 0.98 * 0.5 * (1 + math.cos(math.pi * gone)))
        for group, rate in zip(learner.param_groups, full):
            group["lr"] = rate * pace
        far, words = losses(queue.get())
        loss = chosen.far * far + words
        learner.zero_grad()
        loss.backward()
        size = torch.nn.utils.clip_grad_norm_(factors + rest, 1.0)
        if not torch.isfinite(size):
            continue
        learner.step()
        step += 1
        now = np.array([far.item(), words.item()])
        mean = now if mean is None else 0.98 * mean + 0.02 * now
        if step % 50 == 0:
            print(step, f"{time.time() - began:.0f} s", mean.round(4), f"{size:.2f}", flush=True)
        if step % 300 == 0:
            print("held", told(), flush=True)
            torch.save(net.state_dict(), chosen.out)
    print("held after", step, told())
    torch.save(net.state_dict(), chosen.out)


if __name__ == "__main__":
    main()
