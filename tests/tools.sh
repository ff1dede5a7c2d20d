# Sourced by tests/run, tests/soak, demo-data/run and android-shell/desk: the one place that knows which tools the work here
# wants, how to tell whether one is there, which Debian packages bring it, and what to do where those cannot be had.
#
#   tools_need WHO TOOL...   installs on Debian as root what is not there, says in WHO's name what is still missing and how to
#                            get it, and leaves the names of those in the array tools_missing; fails where there are any

tools_have() { command -v "$1" >/dev/null 2>&1; }
tools_java_17() { tools_have javac && [[ $(javac -version 2>&1) =~ ^javac\ ([0-9]+) ]] && ((BASH_REMATCH[1] >= 17)); }
tools_python_311() { tools_have python3 && python3 -c 'import sys, venv, ensurepip; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; }
tools_rust_195() { tools_have cargo && [[ $(cargo --version) =~ ^cargo\ 1\.([0-9]+) ]] && ((BASH_REMATCH[1] >= 95)); }

# Each: the test for it, what it is, the Debian packages that bring it, what to do elsewhere.
declare -A tools_known=(
  [rust]="tools_rust_195|Rust 1.95 or later (cargo)||install it with rustup, the Rust project's installer"
  [cc]="tools_have cc|a C compiler (for the bundled SQLite)|gcc libc6-dev|install your system's C compiler"
  [python]="tools_python_311|Python 3.11 or later with venv|python3 python3-venv|install Python 3.11 with its venv and ensurepip modules"
  [java]="tools_java_17|a JDK, 17 or later|openjdk-17-jdk-headless|install OpenJDK 17"
  [mvn]="tools_have mvn|Maven|maven|install Apache Maven 3.8 or later"
  [aapt2]="tools_have aapt2|aapt2|aapt|it comes with the Android build tools"
  [zipalign]="tools_have zipalign|zipalign|zipalign|it comes with the Android build tools"
  [apksigner]="tools_have apksigner|apksigner|apksigner|it comes with the Android build tools"
  [chromium]="tools_have chromium|the browser Chromium (for the test of the phone on the desk)|chromium|install Chromium"
  [chromedriver]="tools_have chromedriver|Chromium's driver (for the test of the phone on the desk)|chromium-driver|install the chromedriver of your Chromium's version"
)
# What the shell and everything that runs on it is built with.
tools_for_shell=(rust cc java mvn aapt2)
tools_missing=()

tools_need() {
  local who=$1 tool test what debian elsewhere; shift
  tools_install "$who" "$@"
  hash -r
  tools_missing=()
  for tool in "$@"; do
    IFS='|' read -r test what debian elsewhere <<<"${tools_known[$tool]}"
    $test && continue
    tools_missing+=("$tool")
    echo "$who: $what is missing. On Debian: ${debian:+apt-get install $debian; }else: $elsewhere." >&2
  done
  ((${#tools_missing[@]} == 0))
}

tools_install() {
  local who=$1 tool test debian package packages=(); shift
  [[ $(id -u) == 0 ]] && tools_have apt-get || return 0
  for tool in "$@"; do
    IFS='|' read -r test _ debian _ <<<"${tools_known[$tool]}"
    # shellcheck disable=SC2206 # several packages in one word
    $test || packages+=($debian)
  done
  ((${#packages[@]})) || return 0
  echo "$who: installing ${packages[*]}" >&2
  local install=(env DEBIAN_FRONTEND=noninteractive apt-get -qq install -y --no-install-recommends)
  # One by one after the rest fails: a package that this Debian does not have must not keep the others away.
  { apt-get -qq update && "${install[@]}" "${packages[@]}"; } >/dev/null 2>&1 ||
    for package in "${packages[@]}"; do "${install[@]}" "$package" >/dev/null 2>&1 || true; done
}
