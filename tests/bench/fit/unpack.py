"""Makes of encoder.fit what train.py begins from, so that learning can go on from what is kept.

  python3 unpack.py ../../../assistant/ear/neural/fit/encoder.fit fit.pt
"""

import json
import sys

import numpy as np
import torch

from encoder import MATRICES, STEPS, Encoder

header, _, payload = open(sys.argv[1], "rb").read().partition(b"\n")
header = json.loads(header)
at = 0


def take(count, kind):
    """The next `count` numbers of the file."""
    global at
    values = np.frombuffer(payload, kind, count, at)
    at += values.nbytes
    return values.astype(np.float32)


def factor(rank, length):
    scales = take(rank, "<f4")
    return torch.tensor(take(rank * length, np.int8).reshape(rank, length) / STEPS * scales[:, None])


ranks = {change["kind"] + change["name"]: change["rank"] for change in header["changes"] if "rank" in change}
net = Encoder(ranks[f"productonnx::MatMul_{MATRICES[0][0]}"], ranks["kernelsconv2.weight"])
state = net.state_dict()
PARTS = {"conv2.bias": "cb2", "conv3.bias": "cb3", "onnx::Mul_1488": "gw", "onnx::Add_1489": "gb"}
PARTS |= {"layer_norm.weight": "ln"}
for index, numbers in enumerate(MATRICES):
    layer = f"layers.{index}."
    for number, part in zip(numbers, ("q", "k", "v", "o", "f1", "f2")):
        PARTS[f"onnx::MatMul_{number}"] = layer + part
    for name, part in (("input_layernorm.weight", "ln1"), ("post_attention_layernorm.weight", "ln2")):
        PARTS[layer + name] = layer + part
    for name, part in (("mlp.fc1.bias", "b1"), ("mlp.fc2.bias", "b2")):
        PARTS[layer + name] = layer + part
for change in header["changes"]:
    name, kind = change["name"], change["kind"]
    if kind == "floats":
        state[PARTS[name]] = torch.tensor(take(change["length"], "<f4"))
        continue
    if kind == "product":
        rows, columns = change["rows"], change["columns"]
    else:
        rows, columns = change["dims"][0], change["dims"][1] * change["dims"][2]
    left, right = factor(change["rank"], rows), factor(change["rank"], columns)
    if kind == "product":
        state[PARTS[name] + ".A"], state[PARTS[name] + ".B"] = left.t().contiguous(), right
    elif name == "conv1.weight":
        # The first convolution is learnt whole.
        state["c1"] += (left.t() @ right).view(state["c1"].shape)
    else:
        n = name[len("conv")]
        state[f"p{n}A"], state[f"p{n}B"] = left.t().contiguous(), right
net.load_state_dict(state)
torch.save(net.state_dict(), sys.argv[2])
print(sys.argv[2], len(payload) - at, "bytes left over")
