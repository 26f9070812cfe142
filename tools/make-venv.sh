#!/bin/sh
# Make a virtual environment in folder $1 with the newest Python from 3.11 on.
set -eu
folder=$1

find_python() {
    for name in python3.14 python3.13 python3.12 python3.11 python3; do
        if command -v "$name" >/dev/null 2>&1 &&
            "$name" -c 'import sys; sys.exit(sys.version_info < (3, 11))' >/dev/null 2>&1; then
            echo "$name"
            return
        fi
    done
}

python=$(find_python)
if [ -z "$python" ]; then
    echo "Python 3.11 or newer was not found." >&2
    echo "Debian, Ubuntu:  apt install python3 python3-venv" >&2
    echo "macOS:           install Python 3 from python.org or with your package manager" >&2
    exit 1
fi
if ! "$python" -c 'import ensurepip, venv' >/dev/null 2>&1; then
    version=$("$python" -c 'import sys; print("python%d.%d-venv" % sys.version_info[:2])')
    if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null 2>&1; then
        echo "installing $version"
        apt-get update -qq
        DEBIAN_FRONTEND=noninteractive apt-get install -y -qq "$version" >/dev/null ||
            DEBIAN_FRONTEND=noninteractive apt-get install -y -qq python3-venv >/dev/null
    else
        echo "$python cannot make virtual environments: its venv part is missing." >&2
        echo "Debian, Ubuntu:  sudo apt install $version   (then run make again)" >&2
        exit 1
    fi
fi
[ -x "$folder/bin/python" ] || "$python" -m venv "$folder"
