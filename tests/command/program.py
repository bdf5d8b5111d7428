"""Runs the program as scripts do, and speaks TAP about it."""
import os
import subprocess
import sys
import tempfile

PROGRAM, ROOT = sys.argv[1], sys.argv[2]
CASES = []


def example(name):
    return os.path.join(ROOT, "examples", name)


def case(function):
    CASES.append(function)
    return function


def run(*arguments, code=0, cwd=None, env=None):
    done = subprocess.run([PROGRAM, *arguments], capture_output=True, text=True, cwd=cwd,
                          env={**os.environ, **(env or {})}, check=False)
    assert done.returncode == code, \
        f"{arguments}: ended with {done.returncode}, not {code}: {done.stderr}{done.stdout[-400:]}"
    return done


def refused(*arguments, says):
    done = run(*arguments, code=2)
    # The leak checker of a sanitized build speaks on stderr too when it has left something out.
    lines = [line for line in done.stderr.splitlines() if line.startswith("pinplate")]
    assert len(lines) == 1, f"{arguments}: not one line: {done.stderr}"
    assert says in lines[0], f"{arguments}: {lines[0]}"
    return lines[0]


def main():
    print(f"1..{len(CASES)}")
    failed = False
    for number, function in enumerate(CASES, 1):
        with tempfile.TemporaryDirectory() as folder:
            try:
                function(folder)
                print(f"ok {number} - {function.__name__}")
            except Exception as trouble:  # a test says what went wrong, whatever it was
                failed = True
                print(f"not ok {number} - {function.__name__}")
                for line in f"{type(trouble).__name__}: {trouble}".splitlines():
                    print(f"# {line}")
        sys.stdout.flush()
    return failed
