#!/usr/bin/env python3
"""Kill runs at random instants over an existing report, fill a disk under them, and look at what is left.

    cargo build --release
    python3 tests/faults/kill.py [KILLS] [COMMAND]

Each killed run must leave the earlier report or the new one, whole; the next run must leave no working folder and keep the
reader's own file. Every tenth run is interrupted (SIGINT, SIGTERM, SIGHUP) and must clean up by itself. Where this program may
mount a small disk, the runs are repeated on disks of 16 KiB to 2 MiB. Exits with 1 where one of these does not hold.
With a quick command and a small dataset a thousand runs take a few minutes.
"""

import hashlib
import random
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
KILLS = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
COMMAND = sys.argv[2] if len(sys.argv) > 2 else str(ROOT / "target/release/calefact")
PIPELINES = ["first.toml", "second.toml"]
SOFT = [signal.SIGINT, signal.SIGTERM, signal.SIGHUP]


def prepare(folder: Path) -> None:
    """A small invented dataset and two pipelines that write into one folder."""
    size = ["--trials", "4", "--rows", "20"]
    subprocess.run([COMMAND, "simulate", "--out", "data", *size], cwd=folder, check=True, stderr=subprocess.DEVNULL)
    for name in PIPELINES:
        (folder / name).write_text(f'name = "faults"\ntitle = "{name}"\ndatasets = ["data"]\n\n[[comparison]]\nfactor = "stove"\n')


def start(folder: Path, pipeline: str, out: str) -> subprocess.Popen:
    return subprocess.Popen([COMMAND, "run", pipeline, "--out", out, "--quiet"], cwd=folder,
                            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)


def results(out: Path) -> str:
    """Hash of all names and bytes of a report, the reader's note left out."""
    digest = hashlib.sha256()
    for path in sorted(p for p in out.rglob("*") if p.is_file() and p.name != "note.txt"):
        digest.update(str(path.relative_to(out)).encode() + b"\0" + path.read_bytes())
    return digest.hexdigest()


def left(parent: Path) -> list[Path]:
    return list(parent.glob(".calefact-*"))


def kills(folder: Path) -> list[str]:
    """Faults of the killed and interrupted runs."""
    out, faults = folder / "out", []
    whole = set()
    for pipeline in PIPELINES:
        begun = time.monotonic()
        assert start(folder, pipeline, "out").wait() in (0, 1)
        duration = time.monotonic() - begun
        whole.add(results(out))
    (out / "note.txt").write_text("mine")
    chance, working, between, soft_left = random.Random(7), 0, 0, 0
    for i in range(KILLS):
        if i % 10 == 9 and left(folder):
            # An interrupted run answers for its own folder, not for one that the killed run before it left.
            start(folder, PIPELINES[i % 2], "out").wait()
        run = start(folder, PIPELINES[i % 2], "out")
        time.sleep(chance.uniform(0.0, 1.1 * duration))
        hard = i % 10 != 9
        run.send_signal(signal.SIGKILL if hard else SOFT[i // 10 % 3])
        run.wait()
        if results(out) not in whole:
            faults.append(f"kill {i}: a mixture")
        working += hard and bool(left(folder))
        between += not (out / "note.txt").exists()
        if not hard and left(folder):
            soft_left += 1
            faults.append(f"interrupt {i}: a working folder is left")
    assert start(folder, PIPELINES[0], "out").wait() in (0, 1)
    if left(folder):
        faults.append("the last run leaves a working folder")
    if not (out / "note.txt").exists():
        faults.append("the reader's own file is gone")
    print(f"{KILLS} runs of {duration:.2f} s ended: {working} left a working folder for the next run, {between} ended between "
          f"the swap and the move of the reader's file, {soft_left} interrupted ones left one; {len(faults)} faults")
    return faults


def full_disks(folder: Path) -> list[str]:
    """Faults of runs on disks too small for them."""
    faults, codes = [], []
    for kib in [16, 64, 128, 256, 384, 512, 768, 1024, 2048]:
        disk = folder / f"disk-{kib}"
        disk.mkdir()
        mounted = subprocess.run(["mount", "-t", "tmpfs", "-o", f"size={kib}k", "tmpfs", disk], capture_output=True)
        if mounted.returncode != 0:
            print("no disk may be mounted here; a full one is not tried")
            return faults
        try:
            for _ in range(2):
                run = subprocess.run([COMMAND, "run", PIPELINES[0], "--out", disk / "out"], cwd=folder, capture_output=True)
                said = run.stderr.decode()
                codes.append(run.returncode)
                if run.returncode == 3 and "The disk is full" not in said or run.returncode not in (0, 1, 3):
                    faults.append(f"{kib} KiB: exit {run.returncode}: {said}")
                if left(disk):
                    faults.append(f"{kib} KiB: a working folder is left")
        finally:
            subprocess.run(["umount", disk], check=True)
    print(f"full disks: exit codes {codes}; {len(faults)} faults")
    return faults


def main() -> int:
    folder = Path(tempfile.mkdtemp(prefix="faults-"))
    try:
        prepare(folder)
        faults = kills(folder) + full_disks(folder)
    finally:
        shutil.rmtree(folder, ignore_errors=True)
    print("\n".join(faults))
    return bool(faults)


if __name__ == "__main__":
    sys.exit(main())
