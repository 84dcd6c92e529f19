// What is written one below the other in a place that may be too low for it: it pages, nothing of it is cut.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Item {
    id: pager

    default property alias content: column.data
    property alias spacing: column.spacing
    required property string what
    property bool dragged: false // a list: with letters as they come it has no key
    property real lineSize: 0 // size of its words: a page ends after a whole line; 0: wherever it ends
    readonly property real step: lineSize > 0 ? oneLine.implicitHeight : 0
    readonly property real room: view.width
    readonly property bool needed: column.height > height + 1
    readonly property bool paged: needed && !(dragged && Theme.text === 1)

    implicitHeight: column.height

    Flickable {
        id: view

        anchors.left: parent.left
        anchors.top: parent.top
        height: pager.paged && pager.step > 0 && pager.step <= parent.height ? Math.floor(parent.height / pager.step) * pager.step : parent.height
        width: parent.width - (pager.paged ? Theme.target + 12 * Theme.u : 0)
        contentHeight: column.height
        clip: pager.needed
        interactive: pager.needed
        boundsBehavior: Flickable.StopAtBounds

        Column {
            id: column

            width: view.width
        }
    }

    Words {
        id: oneLine

        visible: false
        text: "X"
        bold: true
        size: pager.lineSize
    }

    Made {
        wanted: pager.paged

        PageKey {
            anchors.right: pager.right
            anchors.bottom: pager.bottom
            of: view
            what: pager.what
            step: pager.step
        }
    }
}
