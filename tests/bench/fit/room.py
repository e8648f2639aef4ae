"""Rooms for learning: made anew for every clip and by other means than tests/speech/noise.ts, whose
noises the benchmarks use, so that what is measured was never learnt."""

import math

import numpy as np

RATE = 16_000
# What the recogniser puts before and after a segment (assistant/ear/neural/prepare.ts).
QUIET, DITHER = RATE // 4, 1e-5
# How much longer a clip gets when it is said higher or deeper.
HIGHEST, DEEPEST = 0.88, 1.06


def decibels(x):
    return 10 ** (x / 20)


class Rooms:
    def __init__(self, clips, seed, clatter=False, things=()):
        self.clips = clips
        self.with_clatter = clatter
        self.things = things
        self.by_length = np.argsort([len(clip) for clip in clips])
        self.rng = np.random.default_rng(seed)

    def coloured(self, n):
        """White noise under a spectral envelope drawn at random."""
        rng, knots = self.rng, 10
        frequency = np.fft.rfftfreq(n, 1 / RATE)
        octaves = np.log2(np.maximum(frequency, 40) / 40)
        places = np.linspace(0, octaves[-1], knots)
        walk = np.cumsum(rng.normal(0, 6, knots))
        walk = np.clip(walk - walk.mean(), -20, 20) + rng.uniform(-5, 1) * places
        gain = decibels(np.interp(octaves, places, walk))
        sound = np.fft.irfft(np.fft.rfft(rng.normal(size=n)) * gain, n)
        return sound / sound.std()

    def slow(self, n, depth, rate):
        """A gain that wanders by `depth` decibels, `rate` times a second."""
        count = max(4, int(n / RATE * rate) + 3)
        points = self.rng.uniform(-1, 1, count)
        return decibels(depth * np.interp(np.linspace(0, count - 1, n), np.arange(count), points))

    def whine(self, n):
        rng = self.rng
        sound = np.zeros(n)
        for _ in range(rng.integers(1, 4)):
            wander = self.slow(n, 6, rng.uniform(0.5, 4)) - 1
            pitch = rng.uniform(600, 7600) * (1 + rng.uniform(0, 0.3) * wander)
            phase = 2 * np.pi * np.cumsum(np.clip(pitch, 100, 7900)) / RATE
            sound += rng.uniform(0.2, 1) * np.sin(phase)
        sound = sound / sound.std() + rng.uniform(0.1, 1.2) * self.coloured(n)
        return sound / sound.std()

    def babble(self, n):
        rng = self.rng
        sound = np.zeros(n)
        for _ in range(rng.integers(2, 6)):
            clip = self.clips[rng.integers(len(self.clips))].astype(np.float32)
            clip = np.tile(clip, n // len(clip) + 1)
            sound += np.roll(clip, rng.integers(len(clip)))[:n] / clip.std()
        return sound / sound.std()

    def clatter(self, n):
        """Things put down: bursts of a few decaying tones and hiss, over some steady noise."""
        rng = self.rng
        sound = rng.uniform(0.02, 0.3) * self.coloured(n)
        for _ in range(rng.integers(1, 3 + int(4 * n / RATE))):
            length = int(rng.uniform(0.03, 0.4) * RATE)
            at = rng.integers(0, n)
            time = np.arange(min(length, n - at)) / RATE
            burst = rng.uniform(0, 1) * rng.normal(size=len(time))
            for _ in range(rng.integers(1, 6)):
                turn = 2 * np.pi * (rng.uniform(200, 7000) * time + rng.random())
                burst += rng.uniform(0.2, 1) * np.sin(turn)
            fade = np.exp(-time * rng.uniform(8, 80))
            sound[at : at + len(time)] += rng.uniform(0.2, 2) * burst * fade
        return sound / sound.std()

    def recorded(self, n):
        """The same with recordings, faster or slower, louder or softer, some more than once."""
        rng = self.rng
        sound = rng.uniform(0.01, 0.4) * self.coloured(n)
        kinds = [self.things[rng.integers(len(self.things))] for _ in range(rng.integers(1, 5))]
        for _ in range(rng.integers(1, 3 + int(3 * n / RATE))):
            thing = kinds[rng.integers(len(kinds))]
            count = int(len(thing) * rng.uniform(0.6, 1.6))
            at = rng.integers(-count // 2, n)
            part = np.interp(np.linspace(0, len(thing) - 1, count), np.arange(len(thing)), thing)
            part = part[max(0, -at) :][: n - max(0, at)]
            sound[max(0, at) : max(0, at) + len(part)] += rng.uniform(0.3, 2) * part
        return sound / sound.std()

    def pulled_air(self, n):
        """Air drawn through a tube: hiss between two corners of drawn slopes, with slurps."""
        rng = self.rng
        frequency = np.maximum(np.fft.rfftfreq(n, 1 / RATE), 1)
        low, high = np.exp(rng.uniform(np.log((60, 700)), np.log((500, 5000))))
        gain = 1 / (1 + (low / frequency) ** rng.uniform(1, 4))
        gain /= 1 + (frequency / high) ** rng.uniform(1, 4)
        sound = np.fft.irfft(np.fft.rfft(rng.normal(size=n)) * gain, n)
        slurps = np.zeros(n)
        for _ in range(rng.integers(0, 2 + int(5 * n / RATE))):
            length = int(rng.uniform(0.03, 0.3) * RATE)
            at = rng.integers(0, n)
            slurps[at : at + length] += np.hanning(length)[: n - at]
        sound = sound * (1 + rng.uniform(0, 2.5) * slurps)
        return sound / sound.std()

    def noise(self, n):
        which = self.rng.random()
        put_down = self.rng.random() if self.with_clatter else 1
        if self.things and put_down < 0.17:
            sound = self.recorded(n)
        elif put_down < (0.3 if self.things else 0.17):
            sound = self.clatter(n)
        elif which < 0.25:
            sound = self.coloured(n)
        elif which < 0.6:
            sound = self.pulled_air(n)
        elif which < 0.85:
            sound = self.whine(n)
        elif which < 0.93:
            sound = self.coloured(n) + 0.7 * self.whine(n)
        else:
            sound = self.babble(n)
        if self.rng.random() < 0.6:
            sound = sound * self.slow(n, self.rng.uniform(1, 6), self.rng.uniform(0.4, 12))
        return sound / sound.std()

    def masked(self, sound):
        """A mask: some decibels off above a corner, one pole."""
        share = 1 - math.exp(-2 * math.pi * self.rng.uniform(1200, 3500) / RATE)
        gain = decibels(-self.rng.uniform(2, 14))
        turn = 2 * np.pi * np.fft.rfftfreq(len(sound))
        low = share / (1 - (1 - share) * np.exp(-1j * turn))
        return np.fft.irfft(np.fft.rfft(sound) * (low + gain * (1 - low)), len(sound))

    def pair(self, clip, n):
        """One clip in a room and without: two sounds of `n` samples between two quiet ends."""
        rng = self.rng
        speech = clip.astype(np.float32) / 32768
        if rng.random() < 0.4:
            # Faster and higher, or a little deeper: other throats than the synthesisers have.
            count = int(len(speech) * rng.uniform(HIGHEST, DEEPEST))
            places = np.linspace(0, len(speech) - 1, count)
            speech = np.interp(places, np.arange(len(speech)), speech).astype(np.float32)
        speech = speech / np.sqrt((speech**2).mean()) * decibels(-24 + rng.uniform(-10, 8))
        at = rng.integers(0, n - len(speech) + 1)
        said = np.zeros(n, np.float32)
        said[at : at + len(speech)] = speech
        hiss = rng.normal(size=n) * decibels(rng.uniform(-78, -62))
        heard = self.masked(said) if rng.random() < 0.6 else said
        in_room = heard + hiss
        if rng.random() >= 0.1:
            level = np.sqrt((heard[at : at + len(speech)] ** 2).mean())
            far = rng.uniform(-1, 24) if rng.random() < 0.5 else rng.uniform(0, 12)
            in_room = in_room + self.noise(n) * level * decibels(-far)
        quiet = rng.uniform(-DITHER, DITHER, QUIET)
        between = lambda sound: np.concatenate((quiet, sound, quiet)).astype(np.float32)
        return between(in_room), between(said + hiss)

    def batch(self, size):
        """Clips of about one length: in rooms and without, each `size` by samples; and which."""
        first = self.rng.integers(0, len(self.clips) - size)
        chosen = [self.clips[at] for at in self.by_length[first : first + size]]
        n = int(DEEPEST * max(len(clip) for clip in chosen)) + int(self.rng.uniform(0.15, 0.7) * RATE)
        pairs = [self.pair(clip, n) for clip in chosen]
        at = self.by_length[first : first + size]
        return np.stack([one for one, _ in pairs]), np.stack([other for _, other in pairs]), at
