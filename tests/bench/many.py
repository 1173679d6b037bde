#!/usr/bin/env python3
"""Times the whole run on many logs beside two libraries' bare read of the same files.

Usage: tests/bench/many.py [--trials 4000] [--rows 600] [--repeat 5] [--calefact target/release/calefact] [--work DIR]

Writes the logs with `calefact simulate`, installs duckdb and polars from PyPI into a virtual environment under the work
folder, then takes turns: one bare read by DuckDB, one by polars, one whole `calefact run`, and again. Files are in the page
cache for all three (each turn reads them all; a first turn is not counted). Also prints the peak memory of the run at a
tenth of the trials and at all of them, which should hardly differ.
"""
import argparse, os, pathlib, shutil, statistics, subprocess, sys, tempfile, time, venv

READERS = {
    "DuckDB, bare read": "import duckdb, sys\n"
    "print(duckdb.sql(f\"select count(*), sum(\\\"tank [degC]\\\") from read_csv('{sys.argv[1]}/logs/b*.csv')\").fetchall())",
    "polars, bare read": "import polars as pl, sys\n"
    "print(pl.scan_csv(f'{sys.argv[1]}/logs/b*.csv').select(pl.len(), pl.col('tank [degC]').sum()).collect())",
}


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


def environment(work):
    """Python of a virtual environment that has duckdb and polars."""
    folder = work / "venv"
    python = folder / "bin" / "python"
    if not python.exists():
        venv.create(folder, with_pip=True)
        subprocess.run([python, "-m", "pip", "install", "--quiet", "duckdb", "polars"], check=True)
    return python


def simulate(calefact, folder, trials, rows):
    if not (folder / "pipeline.toml").exists():
        shutil.rmtree(folder, ignore_errors=True)
        command = [calefact, "simulate", "--out", folder, "--trials", str(trials), "--rows", str(rows)]
        print(f"{trials} logs x {rows} rows written in {timed(command)[0]:.2f} s")


def run(calefact, folder, out):
    shutil.rmtree(out, ignore_errors=True)
    return timed([calefact, "run", folder / "pipeline.toml", "--out", out, "--quiet"])


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--trials", type=int, default=4000)
    parser.add_argument("--rows", type=int, default=600)
    parser.add_argument("--repeat", type=int, default=5)
    parser.add_argument("--calefact", default="target/release/calefact")
    parser.add_argument("--work", type=pathlib.Path, default=pathlib.Path(tempfile.gettempdir()) / "calefact-bench")
    args = parser.parse_args()
    args.work.mkdir(parents=True, exist_ok=True)
    python = environment(args.work)
    many, few = (args.work / f"logs-{n}x{args.rows}" for n in (args.trials, args.trials // 10))
    simulate(args.calefact, many, args.trials, args.rows)
    simulate(args.calefact, few, args.trials // 10, args.rows)
    jobs = {name: lambda code=code: timed([python, "-c", code, many]) for name, code in READERS.items()}
    jobs["calefact, whole run"] = lambda: run(args.calefact, many, args.work / "out")
    results = {name: [] for name in jobs}
    for turn in range(args.repeat + 1):
        for name, job in jobs.items():
            result = job()
            if turn:
                results[name].append(result)
    report(args, results, run(args.calefact, few, args.work / "out-few")[1])


def report(args, results, few_peak):
    slowest = max(statistics.median(t for t, _ in results[name]) for name in READERS)
    print(f"\n{args.trials} logs x {args.rows} rows, {args.repeat} turns, {os.cpu_count()} processors, load {os.getloadavg()[0]:.1f}")
    print(f"{'':24}{'median s':>10}{'min s':>8}{'max s':>8}{'x reader':>10}{'peak MiB':>10}")
    for name, runs in results.items():
        times = [t for t, _ in runs]
        peak = max(p for _, p in runs)
        median = statistics.median(times)
        print(f"{name:24}{median:>10.2f}{min(times):>8.2f}{max(times):>8.2f}{median / slowest:>10.2f}{peak:>10.0f}")
    print(f"peak memory of the run at {args.trials // 10} trials: {few_peak:.0f} MiB")


if __name__ == "__main__":
    main()
