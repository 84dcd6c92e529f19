// How wide words are in the smallest letters there are.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

TextMetrics {
    font.family: Theme.family
    font.pixelSize: Theme.least
}
