"""The recogniser's encoder for learning, read from its ONNX file; agrees with what the runtime
gives to 0.9994 (correlation), the rest being the runtime's own rounding of what flows through it.
Needs Debian's python3-torch, python3-onnx and libopenblas0-pthread."""

import math
from pathlib import Path

import numpy as np
import onnx
import torch
import torch.nn.functional as F
from onnx import numpy_helper
from torch import nn

MODEL = (
    Path(__file__).resolve().parents[3]
    / "node_modules/@usefulsensors/moonshine-js/dist/model/tiny/quantized"
)
HEADS, HEAD = 8, 36
ROTATED = 32
# As assistant/ear/neural/fit/fit.ts has it: a factor is kept as whole numbers from -127 to 127.
STEPS = 127
# What factors are rounded to for learning, which a processor with tiles (AMX) multiplies three to six
# times as fast; what is added up stays floats. The encoder's output is 0.3 % off for it.
FACTORS = torch.bfloat16
# The file names its matrices by number: of each layer those for queries, keys, values, output and
# the two of the feed-forward part.
MATRICES = [
    [1493, 1494, 1495, 1537, 1538, 1539],
    [1540, 1541, 1542, 1584, 1585, 1586],
    [1587, 1588, 1589, 1631, 1632, 1633],
    [1634, 1635, 1636, 1678, 1679, 1680],
    [1681, 1682, 1683, 1725, 1726, 1727],
    [1728, 1729, 1730, 1772, 1773, 1774],
]
# Those of the decoder that make keys and values of what the encoder gives.
DECODER_MATRICES = [2282, 2283, 2345, 2346, 2408, 2409, 2471, 2472, 2534, 2535, 2597, 2598]


def stored(name):
    """The tensors of one of the model's files by name."""
    graph = onnx.load(MODEL / name).graph
    return {tensor.name: numpy_helper.to_array(tensor) for tensor in graph.initializer}


ENCODER = stored("encoder_model.onnx")


def floats(values):
    return torch.tensor(np.array(values, dtype=np.float32))


def matrix(tensors, name):
    """Weights, inputs by outputs."""
    steps = tensors[f"{name}_quantized"].astype(np.float32) - float(tensors[f"{name}_zero_point"])
    return floats(steps * float(tensors[f"{name}_scale"]))


def kernel(name):
    steps = ENCODER[f"{name}.weight_quantized"].astype(np.float32)
    return floats(
        steps * ENCODER[f"{name}.weight_scale"] + ENCODER[f"{name}.weight_zero_point"]
    )


def product(a, b):
    """A product of matrices, its factors rounded as FACTORS says."""
    return (a.to(FACTORS) @ b.to(FACTORS)).float()


def convolved(x, kernels, bias, stride):
    return F.conv1d(x.to(FACTORS), kernels.to(FACTORS), stride=stride).float() + bias[:, None]


class Gelu(torch.autograd.Function):
    """By hand: the backward pass of torch 1.13's own gave gradients of 1e11."""

    @staticmethod
    def forward(ctx, x):
        share = torch.erf(x * 0.5**0.5).add_(1).mul_(0.5)
        ctx.save_for_backward(x, share)
        return x * share

    @staticmethod
    def backward(ctx, grad):
        x, share = ctx.saved_tensors
        slope = torch.exp(x * x * -0.5).mul_(x).mul_((2 * math.pi) ** -0.5).add_(share)
        return slope.mul_(grad)


gelu = Gelu.apply


def attend(q, k, v, mask=None):
    """Batch by heads by length by size; gives batch by length by heads times size."""
    batch, count, length, size = q.shape
    scores = product(q, k.transpose(2, 3)) / size**0.5
    shares = torch.softmax(scores if mask is None else scores + mask, -1)
    return product(shares, v).transpose(1, 2).reshape(batch, length, count * size)


def rotate(x, cos, sin):
    turned, rest = x[..., :ROTATED], x[..., ROTATED:]
    across = torch.stack((-turned[..., 1::2], turned[..., ::2]), -1).flatten(-2)
    return torch.cat((turned * cos + across * sin, rest), -1)


class Linear(nn.Module):
    """A stored matrix, and a product of two factors A and B of `rank` that is learnt."""

    def __init__(self, number, rank):
        super().__init__()
        self.register_buffer("w", matrix(ENCODER, f"onnx::MatMul_{number}"))
        self.rank = rank
        if rank:
            rows, columns = self.w.shape
            self.A = nn.Parameter(torch.randn(rows, rank) / rows**0.5)
            self.B = nn.Parameter(torch.zeros(rank, columns))

    def forward(self, x):
        return product(x, self.w + self.A @ self.B if self.rank else self.w)


class Layer(nn.Module):
    def __init__(self, index, rank):
        super().__init__()
        self.q, self.k, self.v, self.o, self.f1, self.f2 = (
            Linear(number, rank) for number in MATRICES[index]
        )
        name = f"layers.{index}."
        self.ln1 = nn.Parameter(floats(ENCODER[name + "input_layernorm.weight"]))
        self.ln2 = nn.Parameter(floats(ENCODER[name + "post_attention_layernorm.weight"]))
        self.b1 = nn.Parameter(floats(ENCODER[name + "mlp.fc1.bias"]))
        self.b2 = nn.Parameter(floats(ENCODER[name + "mlp.fc2.bias"]))

    def attend(self, x, cos, sin):
        batch, length, _ = x.shape
        heads = lambda y: y.view(batch, length, HEADS, HEAD).transpose(1, 2)
        q, k = rotate(heads(self.q(x)), cos, sin), rotate(heads(self.k(x)), cos, sin)
        return self.o(attend(q, k, heads(self.v(x))))

    def forward(self, x, cos, sin):
        size = (x.shape[-1],)
        x = x + self.attend(F.layer_norm(x, size, self.ln1, None, 1e-5), cos, sin)
        h = F.layer_norm(x, size, self.ln2, None, 1e-5)
        return x + self.f2(gelu(self.f1(h) + self.b1)) + self.b2


class Encoder(nn.Module):
    """Sound at 16 kHz, batch by samples, to batch by frames by 288; with rank 0 as it is stored."""

    def __init__(self, rank=0, kernel_rank=0):
        super().__init__()
        self.c1 = nn.Parameter(kernel("conv1"), requires_grad=kernel_rank > 0)
        self.kernel_rank = kernel_rank
        for n in "23":
            weights = kernel(f"conv{n}")
            self.register_buffer(f"c{n}", weights)
            if kernel_rank:
                size = weights[0].numel()
                a = torch.zeros(weights.shape[0], kernel_rank)
                b = torch.randn(kernel_rank, size) / size**0.5
                setattr(self, f"p{n}A", nn.Parameter(a))
                setattr(self, f"p{n}B", nn.Parameter(b))
        self.cb2 = nn.Parameter(floats(ENCODER["conv2.bias"]))
        self.cb3 = nn.Parameter(floats(ENCODER["conv3.bias"]))
        self.gw = nn.Parameter(floats(ENCODER["onnx::Mul_1488"])[:, 0])
        self.gb = nn.Parameter(floats(ENCODER["onnx::Add_1489"])[:, 0])
        self.layers = nn.ModuleList(Layer(index, rank) for index in range(len(MATRICES)))
        self.ln = nn.Parameter(floats(ENCODER["layer_norm.weight"]))
        self.register_buffer("freq", floats(ENCODER["/rotary_emb/Cast_1_output_0"]).ravel())

    def change(self, n):
        """What is added to the kernel of convolution `n`, kernels by weights of one."""
        return getattr(self, f"p{n}A") @ getattr(self, f"p{n}B")

    def kernel(self, n):
        weights = getattr(self, f"c{n}")
        return weights + self.change(n).view(weights.shape) if self.kernel_rank else weights

    def forward(self, x):
        x = torch.tanh(F.conv1d(x[:, None], self.c1, stride=64)).contiguous()
        x = F.group_norm(x, 1, self.gw, self.gb, 1e-5)
        x = gelu(convolved(x, self.kernel("2"), self.cb2, stride=3))
        x = gelu(convolved(x, self.kernel("3"), self.cb3, stride=2))
        x = x.transpose(1, 2).contiguous()
        angles = torch.arange(x.shape[1])[:, None].float() * self.freq[None]
        angles = angles.repeat_interleave(2, -1)
        for layer in self.layers:
            x = layer(x, angles.cos(), angles.sin())
        return F.layer_norm(x, (x.shape[-1],), self.ln, None, 1e-5)


def keys_and_values():
    """All the decoder's matrices that the encoder's output goes through, side by side."""
    tensors = stored("decoder_model_merged.onnx")
    return [matrix(tensors, f"onnx::MatMul_{n}_merged_0") for n in DECODER_MATRICES]
