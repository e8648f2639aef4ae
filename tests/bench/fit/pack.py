"""Writes what was learnt as the file that assistant/ear/neural/fit/fit.ts reads.

  python3 pack.py fit.pt encoder.fit 1

The last number is the share of what was learnt that is put to the weights.
"""

import json
import sys

import numpy as np
import torch

from encoder import ENCODER, MATRICES, MODEL, STEPS, Encoder

CONV1_RANK = 96


class Fit:
    def __init__(self):
        self.changes, self.payload = [], []

    def factors(self, change, rank):
        """The change of a matrix as two factors of whole numbers, each row with its scale."""
        left, sizes, right = np.linalg.svd(share * change.numpy(), full_matrices=False)
        roots = np.sqrt(sizes[:rank])
        for factor in ((left[:, :rank] * roots).T, right[:rank] * roots[:, None]):
            scales = np.maximum(np.abs(factor).max(1), 1e-9).astype("<f4")
            self.payload.append(scales.tobytes())
            self.payload.append(np.round(factor / scales[:, None] * STEPS).astype(np.int8).tobytes())
        return len(roots)

    def product(self, name, change, zero, rank):
        rows, columns = change.shape
        about = {"name": name, "rows": rows, "columns": columns, "zero": zero}
        self.changes.append({"kind": "product", **about, "rank": self.factors(change, rank)})

    def kernels(self, name, change, dims, rank):
        rank = self.factors(change, rank)
        self.changes.append({"kind": "kernels", "name": name, "dims": dims, "rank": rank})

    def floats(self, name, part):
        values = given[part] + share * (learnt[part] - given[part])
        values = values.numpy().astype("<f4").ravel()
        self.changes.append({"kind": "floats", "name": name, "length": len(values)})
        self.payload.append(values.tobytes())

    def written(self):
        of = (MODEL / "encoder_model.onnx").stat().st_size
        header = {"format": "seatcall-encoder-fit/2", "of": of, "changes": self.changes}
        return json.dumps(header).encode() + b"\n" + b"".join(self.payload)


share = float(sys.argv[3])
given = Encoder().state_dict()
learnt = torch.load(sys.argv[1])
rank = learnt["layers.0.q.A"].shape[1]
kernel_rank = learnt["p2A"].shape[1]
fit = Fit()
fit.kernels("conv1.weight", (learnt["c1"] - given["c1"])[:, 0], list(given["c1"].shape), CONV1_RANK)
for n in "23":
    change = learnt[f"p{n}A"] @ learnt[f"p{n}B"]
    fit.kernels(f"conv{n}.weight", change, list(given[f"c{n}"].shape), kernel_rank)
    fit.floats(f"conv{n}.bias", f"cb{n}")
fit.floats("onnx::Mul_1488", "gw")
fit.floats("onnx::Add_1489", "gb")
for index, numbers in enumerate(MATRICES):
    layer = f"layers.{index}."
    for number, part in zip(numbers, ("q", "k", "v", "o", "f1", "f2")):
        change = learnt[f"{layer}{part}.A"] @ learnt[f"{layer}{part}.B"]
        zero = int(ENCODER[f"onnx::MatMul_{number}_zero_point"])
        fit.product(f"onnx::MatMul_{number}", change, zero, rank)
    fit.floats(layer + "input_layernorm.weight", layer + "ln1")
    fit.floats(layer + "post_attention_layernorm.weight", layer + "ln2")
    fit.floats(layer + "mlp.fc1.bias", layer + "b1")
    fit.floats(layer + "mlp.fc2.bias", layer + "b2")
fit.floats("layer_norm.weight", "ln")
with open(sys.argv[2], "wb") as file:
    print(sys.argv[2], file.write(fit.written()), "bytes")
