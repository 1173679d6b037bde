#!/usr/bin/env python3
"""All figures of speed and memory, side by side in one run.

    cargo build --release
    python3 tests/bench/figures.py [--only NAME ...] [--repeat 3] [--command target/release/calefact] [--work DIR]

Cases: `demo`, `notebook` (five burns of five readings), `many` (4,000 logs of 600 rows beside two libraries' bare read of the
same files), `scale` (ten times as many), `long` (one log of ten million rows beside a bare read of it) and `draws` (Monte
Carlo for 1,000 trials).

Logs are written by `calefact simulate`; `long` stretches one of them. duckdb, numpy and polars come from PyPI into a virtual
environment under the work folder, which needs some 4 GB. Jobs of a case take turns; the first turn, which fills the page
cache, is not counted.
"""
import argparse
import os
import pathlib
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
import venv

ROOT = pathlib.Path(__file__).resolve().parents[2]
READERS = {
    "duckdb, bare read": "import duckdb, sys\n"
    "print(duckdb.sql(f\"select count(*), sum(\\\"tank [degC]\\\") from read_csv('{sys.argv[1]}/logs/b*.csv')\").fetchall())",
    "polars, bare read": "import polars as pl, sys\n"
    "print(pl.scan_csv(f'{sys.argv[1]}/logs/b*.csv').select(pl.len(), pl.col('tank [degC]').sum()).collect())",
}
STRETCH = """
import sys, numpy as np, polars as pl
path, rows = sys.argv[1], int(sys.argv[2])
log, noise = pl.read_csv(path, infer_schema_length=None), np.random.default_rng(1)
at = np.linspace(0, len(log) - 1, rows)
def column(name):
    if name == "event":
        return pl.Series([log[name][0]] + [None] * (rows - 1), dtype=pl.String)
    values = np.interp(at, np.arange(len(log)), log[name].cast(pl.Float64).to_numpy())
    spread = 0 if name.startswith("elapsed") else 1e-5 if "kg/s" in name else 1e-3
    return np.round(values + noise.normal(0, spread, rows), 6 if spread < 1e-3 else 4)
pl.DataFrame({name: column(name) for name in log.columns}).write_csv(path)
"""


def timed(command):
    """Wall time in s and peak resident memory in MiB of a command; its exit code may be 0 or 1 (findings)."""
    start = time.perf_counter()
    child = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True)
    errors = child.stderr.read()
    _, status, usage = os.wait4(child.pid, 0)
    wall = time.perf_counter() - start
    child.returncode = os.waitstatus_to_exitcode(status)
    if child.returncode not in (0, 1):
        sys.exit(f"{command[0]} failed with {child.returncode}:\n{errors[-2000:]}")
    return wall, usage.ru_maxrss / 1024


class Bench:
    def __init__(self, args):
        self.command, self.work, self.repeat = str(pathlib.Path(args.command).resolve()), args.work, args.repeat
        self.work.mkdir(parents=True, exist_ok=True)

    def python(self):
        """Python of a virtual environment with the libraries."""
        folder = self.work / "venv"
        python = folder / "bin" / "python"
        if not python.exists():
            venv.create(folder, with_pip=True)
        subprocess.run([python, "-m", "pip", "install", "--quiet", "duckdb", "numpy", "polars"], check=True)
        return python

    def simulated(self, trials, rows, name=None):
        """A simulated dataset, written once."""
        folder = self.work / (name or f"logs-{trials}x{rows}")
        if not (folder / "pipeline.toml").exists():
            shutil.rmtree(folder, ignore_errors=True)
            timed([self.command, "simulate", "--out", folder, "--trials", str(trials), "--rows", str(rows)])
        return folder

    def run(self, pipeline):
        out = self.work / "out"
        shutil.rmtree(out, ignore_errors=True)
        return timed([self.command, "run", pipeline, "--out", out, "--quiet"])

    def turns(self, title, jobs):
        """Times jobs in turns and prints them; gives the median time of each."""
        results = {name: [] for name in jobs}
        for turn in range(self.repeat + 1):
            for name, job in jobs.items():
                result = job()
                if turn:
                    results[name].append(result)
        print(f"\n{title}")
        print(f"{'':24}{'median s':>10}{'min s':>8}{'max s':>8}{'peak MiB':>10}")
        medians = {}
        for name, runs in results.items():
            times = [t for t, _ in runs]
            medians[name] = statistics.median(times)
            peak = max(p for _, p in runs)
            print(f"{name:24}{medians[name]:>10.3f}{min(times):>8.3f}{max(times):>8.3f}{peak:>10.0f}", flush=True)
        return medians

    def reads(self, folder, names):
        python = self.python()
        return {name: lambda code=READERS[name]: timed([python, "-c", code, folder]) for name in names}

    def demo(self):
        self.turns("the demo", {"whole run": lambda: self.run(ROOT / "pipelines/hill-nursery.toml")})

    def notebook(self):
        folder = self.simulated(5, 5)
        self.turns("five burns of five readings", {"whole run": lambda: self.run(folder / "pipeline.toml")})

    def many(self):
        folder = self.simulated(4000, 600)
        jobs = self.reads(folder, READERS) | {"whole run": lambda: self.run(folder / "pipeline.toml")}
        medians = self.turns("4,000 logs of 600 rows", jobs)
        print(f"whole run: {medians['whole run'] / medians['duckdb, bare read']:.2f} times duckdb's bare read")

    def scale(self):
        few, many = (self.simulated(trials, 600) / "pipeline.toml" for trials in (4000, 40_000))
        medians = self.turns("ten times as many", {"4,000": lambda: self.run(few), "40,000": lambda: self.run(many)})
        print(f"{medians['40,000'] / medians['4,000']:.1f} times as long")

    def long(self):
        folder, rows = self.work / "one-log", 10_000_000
        if not (folder / "stretched").exists():
            self.simulated(1, 600, "one-log")
            subprocess.run([self.python(), "-c", STRETCH, folder / "logs/b01.csv", str(rows)], check=True)
            (folder / "stretched").touch()
        jobs = self.reads(folder, ["duckdb, bare read"]) | {"whole run": lambda: self.run(folder / "pipeline.toml")}
        medians = self.turns("one log of ten million rows", jobs)
        print(f"whole run: {medians['whole run'] / medians['duckdb, bare read']:.2f} times duckdb's bare read")

    def draws(self):
        folder = self.simulated(1000, 60)
        text = (folder / "pipeline.toml").read_text()
        (folder / "draws.toml").write_text(text.replace("[settings]", '[settings]\npropagation = "monte carlo"\ndigits = 1', 1))
        jobs = {name: lambda file=folder / file: self.run(file) for name, file in
                [("first order", "pipeline.toml"), ("monte carlo", "draws.toml")]}
        self.turns("1,000 trials of 60 rows", jobs)


CASES = ["demo", "notebook", "many", "scale", "long", "draws"]


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--only", nargs="+", choices=CASES, default=CASES)
    parser.add_argument("--repeat", type=int, default=3)
    parser.add_argument("--command", default=ROOT / "target/release/calefact")
    parser.add_argument("--work", type=pathlib.Path, default=pathlib.Path(tempfile.gettempdir()) / "calefact-bench")
    bench = Bench(parser.parse_args())
    print(f"{os.cpu_count()} processors, load {os.getloadavg()[0]:.1f}, {bench.repeat} turns")
    for case in parser.parse_args().only:
        getattr(bench, case)()


if __name__ == "__main__":
    main()
