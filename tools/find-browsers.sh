#!/bin/sh
# The browser tests drive the system's own Chromium and Firefox; as root on Debian, install them.
set -eu

have_chromium() { command -v chromium >/dev/null 2>&1 || [ -x /usr/bin/chromium ]; }
have_firefox() { command -v firefox-esr >/dev/null 2>&1 || command -v firefox >/dev/null 2>&1; }

if have_chromium && have_firefox; then
    exit 0
fi
if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null 2>&1; then
    echo "installing Chromium and Firefox for the browser tests"
    apt-get update -qq
    DEBIAN_FRONTEND=noninteractive apt-get install -y -qq chromium firefox-esr >/dev/null
    exit 0
fi
echo "The browser tests need Chromium and Firefox, and at least one was not found." >&2
echo "Debian, Ubuntu:  sudo apt install chromium firefox-esr   (then run make test again)" >&2
exit 1
