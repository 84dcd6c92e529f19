# Debian 12 packages. To run and build; to test; for the long campaigns.
BRIMFUL_BUILD_PACKAGES="
  ca-certificates git cmake ninja-build g++ pkg-config
  libboost-dev libsqlitecpp-dev libsqlite3-dev libsodium-dev libssl-dev rapidjson-dev libhowardhinnant-date-dev
  libexpected-dev libcli11-dev libqrcodegencpp-dev libzxing-dev libcadical-dev
  qt6-base-dev qt6-declarative-dev qt6-svg-dev libqt6svg6-dev qt6-multimedia-dev qt6-tools-dev qt6-tools-dev-tools qt6-l10n-tools qt6-declarative-dev-tools
  qml6-module-qtquick qml6-module-qtquick-controls qml6-module-qtquick-templates qml6-module-qtquick-layouts
  qml6-module-qtquick-window qml6-module-qtqml qml6-module-qtqml-models qml6-module-qtqml-workerscript
  libgl-dev libegl-dev fonts-b612"
BRIMFUL_TEST_PACKAGES="
  clang-14 clang-format-14 clang-tidy-14 librapidcheck-dev libzbar-dev zbar-tools poppler-utils imagemagick sqlite3 openssl
  libbenchmark-dev libgsl-dev libgeos-dev
  libocct-visualization-dev libocct-modeling-algorithms-dev libocct-foundation-dev libocct-modeling-data-dev
  python3 python3-ezdxf
  qml6-module-qttest xvfb x11-apps xdotool"
BRIMFUL_DEEP_PACKAGES="libclang-rt-14-dev libz3-dev hyperfine"
BRIMFUL_READER_PACKAGES="orca at-spi2-core dbus dbus-daemon speech-dispatcher python3-speechd openbox xvfb xauth xdotool"

# Installs what is missing of the named packages; says what. As root, or with --yes through sudo.
brimful_need() {
  local missing=() package
  for package in "$@"; do
    dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'install ok installed' || missing+=("$package")
  done
  [ ${#missing[@]} -eq 0 ] && return 0
  echo "Missing packages: ${missing[*]}"
  if [ "$(id -u)" -eq 0 ]; then
    apt-get update -qq
    DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${missing[@]}" > /dev/null
  elif [ "${BRIMFUL_YES:-no}" = yes ]; then
    sudo apt-get update -qq
    sudo DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${missing[@]}" > /dev/null
  else
    echo "Install them as root, or run this again with --yes:"
    echo "  sudo apt-get install --no-install-recommends ${missing[*]}"
    return 1
  fi
}
