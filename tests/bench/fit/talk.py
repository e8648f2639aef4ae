"""People talking, to learn from: the actors' lines of two old adventure games that Debian has, some
six hours in short sentences by dozens of voices, American and British. Writes WAV files at 16 kHz.

  apt-get download flight-of-the-amazon-queen beneath-a-steel-sky
  for package in *.deb; do dpkg-deb -x "$package" GAMES; done
  python3 talk.py GAMES FOLDER/natural

Needs ffmpeg. How the files are laid out is from memory of open-source readers of them.
"""

import struct
import subprocess
import sys
from pathlib import Path

RATE = 16_000
# Less than this is no sentence.
FEWEST_BYTES, FEWEST_SAMPLES = 1500, 4000


class Bits:
    """Little-endian words, lowest bit first, with whole bytes between them."""

    def __init__(self, source, at):
        self.source, self.at, self.word, self.left = source + bytes(8), at, 0, 0

    def take(self, count):
        value = got = 0
        while got < count:
            if self.left == 0:
                self.word = self.source[self.at] | self.source[self.at + 1] << 8
                self.at, self.left = self.at + 2, 16
            part = min(count - got, self.left)
            value |= (self.word & ((1 << part) - 1)) << got
            self.word, self.left, got = self.word >> part, self.left - part, got + part
        return value

    def table(self):
        """A prefix code: what stands for which number."""
        lengths = [self.take(4) for _ in range(self.take(5))]
        codes, code = {}, 0
        for length in range(1, 17):
            for number, own in enumerate(lengths):
                if own == length:
                    turned = format(code >> (16 - length), f"0{length}b")[::-1]
                    codes[length, int(turned, 2)] = number
                    code += 1 << (16 - length)
        return codes

    def number(self, codes):
        value = 0
        for length in range(1, 17):
            value |= self.take(1) << (length - 1)
            found = codes.get((length, value))
            if found is not None:
                return found if found < 2 else self.take(found - 1) | 1 << (found - 1)
        raise ValueError("no such code")


def unpacked(packed):
    """A block of the second game: repeats and bytes by turns, under prefix codes."""
    if packed[:4] != b"RNC\x01":
        return packed
    (wanted,) = struct.unpack(">I", packed[4:8])
    bits, out = Bits(packed, 18), bytearray()
    bits.take(2)
    while len(out) < wanted:
        plain, back, repeated = bits.table(), bits.table(), bits.table()
        for left in range(bits.take(16), 0, -1):
            count = bits.number(plain)
            out += bits.source[bits.at : bits.at + count]
            bits.at += count
            if left > 1:
                distance = bits.number(back) + 1
                for _ in range(bits.number(repeated) + 2):
                    out.append(out[-distance])
    return bytes(out)


def first_game(folder):
    """Lines as MP3, each with its name."""
    data = (folder / "queen.1c").read_bytes()
    (count,) = struct.unpack(">H", data[13:15])
    for at in range(15, 15 + 21 * count, 21):
        name = data[at : at + 12].split(b"\0")[0].decode("latin1")
        start, size = struct.unpack(">II", data[at + 13 : at + 21])
        if name.endswith(".SB") and size > FEWEST_BYTES:
            yield f"q{name[:-3]}", data[start : start + size], ["-f", "mp3"]


def second_game(folder):
    """Lines as unsigned bytes at 11,025 Hz."""
    data, index = (folder / "sky.dsk").read_bytes(), (folder / "sky.dnr").read_bytes()
    (count,) = struct.unpack("<I", index[:4])
    for at in range(4, 4 + 8 * count, 8):
        (number,) = struct.unpack("<H", index[at : at + 2])
        start = int.from_bytes(index[at + 2 : at + 5], "little")
        size = int.from_bytes(index[at + 5 : at + 8], "little") & 0x3FFFFF
        start = (start & 0x7FFFFF) << 4 if start >> 23 & 1 else start & 0x7FFFFF
        if number < 50_000:
            continue
        sound = unpacked(data[start : start + size][22:])
        if len(sound) >= FEWEST_SAMPLES:
            yield f"s{number}", sound, ["-f", "u8", "-ar", "11025", "-ac", "1"]


def main():
    games, out = Path(sys.argv[1]) / "usr/share/scummvm", Path(sys.argv[2])
    out.mkdir(parents=True, exist_ok=True)
    lines = [
        *first_game(games / "flight-of-the-amazon-queen"),
        *second_game(games / "beneath-a-steel-sky"),
    ]
    for name, sound, what in lines:
        command = ["ffmpeg", "-v", "error", "-y", *what, "-i", "-", "-ar", str(RATE), "-ac", "1"]
        subprocess.run([*command, str(out / f"{name}.wav")], input=sound, check=False)
    print(len(lines), "lines in", out)


if __name__ == "__main__":
    main()
