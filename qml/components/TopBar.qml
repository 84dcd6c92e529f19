// The strip on top of a screen that has no vessel.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Item {
    id: strip

    width: parent?.width ?? 0
    height: Theme.plate

    Rectangle {
        anchors.fill: parent
        color: Theme.colours.panel
    }

    Rectangle {
        anchors.bottom: parent.bottom
        width: strip.width
        height: Theme.line
        color: Theme.colours.ink
    }
}
