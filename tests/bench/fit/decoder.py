"""The recogniser's decoder, read from its ONNX file, for learning by its own word: it stays as it is
and says how likely each token is, given the encoder's output and the tokens before it."""

import numpy as np
import torch
import torch.nn.functional as F
from torch import nn

from encoder import DECODER_MATRICES, FACTORS, HEAD, HEADS, attend, floats, matrix, product, rotate, stored

# The file names its matrices by number: of each layer the queries, keys, values and output of its
# look at the tokens, the queries and output of its look at the sound, and the two of the
# feed-forward part.
MATRICES = [
    [2115, 2234, 2117, 2162, 2281, 2293, 2294, 2169],
    [2296, 2297, 2298, 2343, 2218, 2222, 2223, 2224],
    [2359, 2360, 2227, 2272, 2273, 2277, 2420, 2421],
    [2280, 2423, 2424, 2469, 2470, 2332, 2483, 2484],
    [2485, 2486, 2487, 2382, 2533, 2545, 2388, 2389],
    [2548, 2549, 2550, 2595, 2438, 2442, 2609, 2444],
]
BEGIN, END = 1, 2
NORMS = ("input_layernorm", "post_attention_layernorm", "final_layernorm")


def heads(x):
    """Batch by length by 288 to one matrix a head, batch after batch."""
    batch, length, _ = x.shape
    return x.view(batch, length, HEADS, HEAD).transpose(1, 2)


def look(q, k, v):
    """The same for one query a head."""
    shares = torch.softmax((q * k).sum(-1) / HEAD**0.5, -1)
    return (shares[..., None] * v).sum(2).reshape(q.shape[0], 1, HEADS * HEAD)


def norm(x, weight):
    return F.layer_norm(x, (x.shape[-1],), weight, None, 1e-5)


class Decoder(nn.Module):
    def __init__(self):
        super().__init__()
        tensors = stored("decoder_model_merged.onnx")
        self.words = matrix(tensors, "model.decoder.embed_tokens.weight_merged_0")
        load = lambda number: matrix(tensors, f"onnx::MatMul_{number}_merged_0").to(FACTORS)
        self.scores = self.words.t().to(FACTORS)
        self.layers = [[load(number) for number in numbers] for numbers in MATRICES]
        self.sound = [load(number) for number in DECODER_MATRICES]
        part = lambda index, name: floats(tensors[f"model.decoder.layers.{index}.{name}_merged_0"])
        each = range(len(MATRICES))
        self.norms = [[part(i, f"{name}.weight") for name in NORMS] for i in each]
        self.biases = [[part(i, f"mlp.{n}_proj.bias") for n in ("up", "down")] for i in each]
        self.last = floats(tensors["model.decoder.norm.weight_merged_0"])
        self.freq = floats(tensors["/model/decoder/rotary_emb/Cast_1_output_0"]).ravel()

    def forward(self, hidden, tokens):
        """
        Logarithms of how likely every token is after each of `tokens` (batch by length, the first
        of them BEGIN): batch by length by vocabulary.
        """
        length = tokens.shape[1]
        angles = torch.arange(length)[:, None].float() * self.freq[None]
        angles = angles.repeat_interleave(2, -1)
        cos, sin = angles.cos(), angles.sin()
        mask = torch.full((length, length), -1e9).triu(1)
        x = self.words[tokens]
        for at, (q, k, v, o, cq, co, up, down) in enumerate(self.layers):
            n = norm(x, self.norms[at][0])
            asked, known = (rotate(heads(product(n, weights)), cos, sin) for weights in (q, k))
            x = x + product(attend(asked, known, heads(product(n, v)), mask), o)
            n = norm(x, self.norms[at][1])
            ck, cv = self.sound[2 * at], self.sound[2 * at + 1]
            known, held = (heads(product(hidden, weights)) for weights in (ck, cv))
            x = x + product(attend(heads(product(n, cq)), known, held), co)
            x = x + self.feed(norm(x, self.norms[at][2]), at, up, down)
        return torch.log_softmax(product(norm(x, self.last), self.scores), -1)

    def write(self, hidden, most):
        """What it writes freely, at most `most` tokens a row, without BEGIN and END."""
        sound = [heads(product(hidden, weights)) for weights in self.sound]
        seen = [None] * len(self.layers)
        following = torch.full((hidden.shape[0],), BEGIN)
        written = []
        for at in range(most):
            angles = (at * self.freq).repeat_interleave(2, -1)
            following = self.next(following, angles.cos(), angles.sin(), sound, seen).argmax(-1)
            if written:
                following[written[-1] == END] = END
            written.append(following)
            if (following == END).all():
                break
        return [[t for t in row if t != END] for row in torch.stack(written, 1).tolist()]

    def next(self, tokens, cos, sin, sound, seen):
        """Scores of what follows one token more a row; `seen` keeps the keys and values of those
        before, a pair a layer."""
        x = self.words[tokens][:, None]
        for at, (q, k, v, o, cq, co, up, down) in enumerate(self.layers):
            n = norm(x, self.norms[at][0])
            fresh = rotate(heads(product(n, k)), cos, sin), heads(product(n, v))
            seen[at] = fresh if seen[at] is None else [torch.cat(pair, 2) for pair in zip(seen[at], fresh)]
            x = x + product(look(rotate(heads(product(n, q)), cos, sin), *seen[at]), o)
            n = norm(x, self.norms[at][1])
            x = x + product(look(heads(product(n, cq)), sound[2 * at], sound[2 * at + 1]), co)
            x = x + self.feed(norm(x, self.norms[at][2]), at, up, down)
        return product(norm(x[:, 0], self.last), self.scores)

    def feed(self, n, at, up, down):
        value, gate = (product(n, up) + self.biases[at][0]).chunk(2, -1)
        return product(gate * torch.sigmoid(gate) * value, down) + self.biases[at][1]
