# Sourced by start and test: makes and fills .venv. Sets root (the checkout) and bin (.venv/bin).
# POSIX sh; messages go to standard error as one plain sentence.

root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd -P) || exit 1
bin=$root/.venv/bin

fail() {
    printf '%s\n' "$1" >&2
    exit 1
}

# A name on PATH proves little (a version manager leaves names that do not run), so each is tried.
fits() {
    "$1" -c 'import sys, venv, ensurepip; sys.exit(sys.version_info < (3, 11))' </dev/null >/dev/null 2>&1
}

find_python() {
    if [ -n "${PYTHON:-}" ]; then
        fits "$PYTHON" || fail "PYTHON names $PYTHON, which is not a Python 3.11 or newer with the venv module."
        printf '%s\n' "$PYTHON"
        return
    fi
    for name in python3 python3.11 python3.12 python3.13 python3.14 python; do
        if fits "$name"; then
            printf '%s\n' "$name"
            return
        fi
    done
    fail "Python 3.11 or newer with its venv module is needed and was not found; install it, or set PYTHON to its path."
}

# quietly SENTENCE COMMAND...: shows what the command printed only when it fails, then the sentence.
quietly() {
    sentence=$1
    shift
    if ! output=$("$@" </dev/null 2>&1); then
        printf '%s\n' "$output" >&2
        fail "$sentence"
    fi
}

# make_environment [EXTRA]: an up-to-date .venv with the project (editable) and, when asked, an extra.
# Its stamp says which checkout and which pyproject.toml it was made for. A moved or copied environment is
# made anew, since its commands carry the old path.
make_environment() {
    stamp=$root/.venv/.made-for
    want="$(cksum < "$root/pyproject.toml") $root"
    made=$(cat "$stamp" 2>/dev/null) || made=
    if fits "$bin/python"; then
        case $made in
            "test $want" | "${1:-} $want") return ;;
        esac
    fi
    python=$(find_python) || exit 1
    printf 'Making the environment .venv (once; a minute or so) ...\n' >&2
    rm -f "$stamp"
    case $made in
        *" $root") fits "$bin/python" || made= ;;
        *) made= ;;
    esac
    if [ -z "$made" ]; then
        quietly "The environment .venv could not be made; see above." "$python" -m venv --clear "$root/.venv"
    fi
    # setuptools: Python 3.11 brings one too old to build the project, which a test does.
    quietly "The packages could not be installed into .venv; see above." \
        "$bin/python" -m pip install --quiet --disable-pip-version-check \
        "setuptools>=77" --editable "$root${1:+[$1]}"
    printf '%s %s\n' "${1:-}" "$want" > "$stamp"
}
