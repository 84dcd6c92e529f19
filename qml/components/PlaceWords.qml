// A word or a value in the box of a place: on one line, as small as there is room for.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Words {
    size: 30
    cap: 38
    maximumLineCount: 1
    elide: Text.ElideRight
    fontSizeMode: Text.HorizontalFit
    minimumPixelSize: Math.round(Theme.least)
}
