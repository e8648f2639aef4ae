"""What the encoder as it was learnt gives for one sound: tests/unit/encoder-fit.sound.test.ts holds
the runtime, with the packed file in it, to this. The first words of FOLDER/check.wav are the test's.

  python3 expect.py fit.pt FOLDER/check.wav tests/unit/encoder-fit.json
"""

import json
import sys
import wave

import numpy as np
import torch

import encoder

# Every so many numbers of the output are kept.
EVERY = 37

learnt = torch.load(sys.argv[1])
encoder.FACTORS = torch.float32
net = encoder.Encoder(learnt["layers.0.q.A"].shape[1], learnt["p2A"].shape[1])
net.load_state_dict(learnt)
with wave.open(sys.argv[2]) as file:
    sound = np.frombuffer(file.readframes(file.getnframes()), np.int16).astype(np.float32) / 32768
with torch.no_grad():
    hidden = net(torch.from_numpy(sound)[None])[0].ravel()[::EVERY]
values = [round(value, 4) for value in hidden.tolist()]
with open(sys.argv[3], "w", encoding="utf-8") as file:
    file.write(json.dumps({"every": EVERY, "values": values}) + "\n")
