// A sweep on the bar of a watch: hollow where one was made, solid where one is to come.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Rectangle {
    property bool made

    width: 28 * Theme.u
    height: width
    rotation: 45
    color: made ? Theme.colours.panel : Theme.colours.ink
    border.width: Theme.line
    border.color: made ? Theme.colours.ink : Theme.colours.panel
}
