"""Things that clank, knock, splash and break, to learn beside: short recordings that games in Debian
have. Writes WAV files at 16 kHz.

  apt-get download wesnoth-1.16-data minetest-data hedgewars-data pinball-table-gnu-data neverball-data
  for package in *.deb; do dpkg-deb -x "$package" GAMES; done
  python3 things.py GAMES FOLDER/things

Needs ffmpeg. People's voices and music are left out by the names of their folders.
"""

import subprocess
import sys
from pathlib import Path

from room import RATE

LONGEST = "4"
LEFT_OUT = ("voices", "Music", "music")


def main():
    games, out = Path(sys.argv[1]), Path(sys.argv[2])
    out.mkdir(parents=True, exist_ok=True)
    found = [
        path
        for path in sorted(games.rglob("*"))
        if path.suffix in (".ogg", ".wav") and not any(name in path.parts for name in LEFT_OUT)
    ]
    for number, path in enumerate(found):
        command = ["ffmpeg", "-v", "error", "-y", "-t", LONGEST, "-i", str(path)]
        subprocess.run([*command, "-ar", str(RATE), "-ac", "1", str(out / f"{number}.wav")], check=False)
    print(len(found), "recordings in", out)


if __name__ == "__main__":
    main()
