// Where the keyboard is: ink inside paper, drawn outside the control.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Item {
    anchors.fill: parent
    anchors.margins: -8 * Theme.u

    Rectangle {
        anchors.fill: parent
        color: "transparent"
        radius: Theme.corner + 8 * Theme.u
        border.width: 4 * Theme.u
        border.color: Theme.colours.paper
    }

    Rectangle {
        anchors.fill: parent
        anchors.margins: 4 * Theme.u
        color: "transparent"
        radius: Theme.corner + 4 * Theme.u
        border.width: 4 * Theme.u
        border.color: Theme.colours.ink
    }
}
