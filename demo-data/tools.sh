# Sourced by demo-data/run: finds the tools that the build wants, installs Debian's where it may, and otherwise says how to get them.

# tools_install PACKAGE... : installs Debian packages where this is root on Debian; otherwise does nothing.
tools_install() {
  [[ $(id -u) == 0 ]] && command -v apt-get >/dev/null || return 0
  echo "demo-data: installing $*" >&2
  apt-get update -qq >/dev/null && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq "$@" >/dev/null || true
}

# tools_need COMMAND PACKAGE HOW : the command must be there in the end; HOW says how to get it where PACKAGE cannot be installed.
tools_need() {
  command -v "$1" >/dev/null && return 0
  [[ -z $2 ]] || tools_install "$2"
  command -v "$1" >/dev/null && return 0
  echo "demo-data: $1 is missing. $3" >&2
  return 1
}

# tools_all : everything that the season's play wants.
tools_all() {
  local lacking=0
  tools_need cc gcc "A C compiler, for the SQLite that is built in. On Debian: apt-get install gcc libc6-dev" || lacking=1
  tools_need cargo "" "Rust 1.95 or later: see rustup.rs" || lacking=1
  tools_need java openjdk-17-jdk-headless "A JDK, 17 or later. On Debian: apt-get install openjdk-17-jdk-headless" || lacking=1
  tools_need mvn maven "Maven 3.8 or later. On Debian: apt-get install maven" || lacking=1
  tools_need aapt2 aapt "The resource compiler of Android. On Debian: apt-get install aapt" || lacking=1
  tools_need python3 python3 "Python 3.11 or later. On Debian: apt-get install python3" || lacking=1
  if [[ $lacking == 0 ]] && ! python3 -c 'import tomllib' 2>/dev/null; then
    echo "demo-data: this Python has no tomllib. Python 3.11 or later is wanted" >&2
    lacking=1
  fi
  return $lacking
}
