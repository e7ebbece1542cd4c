#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Runs the engine and general-purpose solvers on the same jobs in one run and prints a table.

usage: peers.py CUTTING_BENCH [CLASS[:CASE]...] [--limit SECONDS] [--times N] [--highs FOLDER_WITH_node_modules]

Solvers are used where they are installed: cbc (coinor-cbc), glpsol (glpk-utils), HiGHS (npm package `highs`, its WebAssembly build).
Times are processor seconds of the solver's process, reading the model included; the engine's are those of its own solve. Without --times every
solver has the limit, by its own clock and, where that fails, by the system's count of its processor time. With --times N it is stopped once it has had
N times the engine's processor time, but at least LEAST seconds and at most the limit: a whole set is then run in minutes, and each ratio is at least what is printed.
"""
import argparse, math, os, re, resource, shutil, subprocess, tempfile


LEAST = 5  # seconds: reading a model must not use them up


def timed(command, limit):
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    most = int(limit) + 10  # solvers look at the clock seldom
    try:
        done = subprocess.run(command, capture_output=True, text=True, timeout=4 * limit + 60, preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_CPU, (most, most)))
        out = done.stdout + done.stderr
    except subprocess.TimeoutExpired:
        out = ""
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return out, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def run_cbc(model, limit, _):
    out, seconds = timed(["cbc", model, "-seconds", str(limit), "-ratioGap", "0", "-allowableGap", "0", "-solve", "-quit"], limit)
    found = re.search(r"Objective value:\s+([\d.eE+]+)", out)
    return seconds, "Result - Optimal solution found" in out, float(found.group(1)) if found else None


def run_glpk(model, limit, _):
    out, seconds = timed(["glpsol", "--lp", model, "--tmlim", str(limit), "--cuts", "-w", model + ".sol"], limit)
    value = None
    if os.path.exists(model + ".sol"):
        for line in open(model + ".sol"):
            if line.startswith("s mip") and line.split()[4] in "of":
                value = float(line.split()[-1])
    return seconds, "INTEGER OPTIMAL SOLUTION FOUND" in out, value


def run_highs(model, limit, folder):
    script = (
        "const fs=require('fs');require('highs')().then(h=>{const r=h.solve(fs.readFileSync(process.argv[1],'utf8'),"
        f"{{time_limit:{limit},mip_rel_gap:0,mip_abs_gap:1e-6,threads:1}});console.log(r.Status,r.ObjectiveValue)}})")
    before = os.getcwd()
    os.chdir(folder)
    out, seconds = timed(["node", "-e", script, model], limit)
    os.chdir(before)
    found = re.search(r"^(Optimal|Time limit reached) ([\d.eE+]+)", out, re.M)
    return seconds, bool(found and found.group(1) == "Optimal"), float(found.group(2)) if found else None


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("bench")
    parser.add_argument("--limit", type=int, default=60)
    parser.add_argument("--times", type=float)
    parser.add_argument("--highs")
    parser.add_argument("classes", nargs="*", default=["planned"])
    args = parser.parse_args()
    peers = []
    if shutil.which("cbc"): peers.append(("cbc", run_cbc))
    if shutil.which("glpsol"): peers.append(("glpk", run_glpk))
    if args.highs: peers.append(("highs", run_highs))
    ratios = []
    for name in args.classes:
        folder = tempfile.mkdtemp()
        out = subprocess.run([args.bench, "--export", folder, name], capture_output=True, text=True).stdout
        for line in out.splitlines():
            case, kind, cost, bound, proved, ffd, seconds, model = line.split()
            seconds = float(seconds)
            row = f"{case:18s} {kind:8s} engine {seconds:8.3f} s {'proved' if proved == '1' else 'gap %.4f%%' % (100 * (1 - float(bound) / float(cost)))} ffd +{100 * (float(ffd) / float(bound) - 1):.2f}%"
            limit = args.limit if args.times is None else min(args.limit, max(LEAST, math.ceil(args.times * seconds)))
            for peer, run in peers:
                if model == "-":
                    continue
                took, done, value = run(model, limit, args.highs)
                row += f" | {peer} {took:7.2f} s {'proved' if done else 'unproved'} {'' if value is None else '%+.4f%%' % (100 * (value / float(cost) - 1))}"
                if took > 0.05 and proved == "1": ratios.append(took / max(seconds, 1e-4))
            print(row, flush=True)
            if model != "-": os.remove(model)
    if ratios:
        ratios.sort()
        print(f"peer time / engine time on {len(ratios)} runs over 50 ms where the engine proved: least {ratios[0]:.1f}, median {ratios[len(ratios) // 2]:.0f}")


main()
