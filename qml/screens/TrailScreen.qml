// The entries of one vessel, newest first, against its way through the gates.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Page {
    id: page

    readonly property TrailPage trail: page.tablet.trail
    readonly property real wayWidth: page.portrait ? 150 * Theme.u : 400 * Theme.u
    readonly property real pitch: (page.portrait ? 160 : 112) * Theme.u

    PlateBar {
        id: bar

        tablet: page.tablet
    }

    Words {
        id: first

        x: page.wayWidth + 2 * Theme.margin
        y: bar.height + 20 * Theme.u
        text: page.trail.later > 0 ? qsTr("%1 are newer").arg(page.trail.later) : qsTr("Newest first")
        bold: true
        size: 32
    }

    Words {
        anchors.right: parent.right
        anchors.rightMargin: Theme.margin
        y: first.y
        text: page.trail.links
        bold: true
        size: 32
    }

    WayDrawing {
        x: Theme.margin
        y: list.y
        width: page.wayWidth
        height: list.height
        reaches: page.trail.reaches
        stages: page.trail.stages
        pitch: page.pitch
        unit: Theme.u
        theme: Theme.name
    }

    RowsView {
        id: list

        x: page.wayWidth + 2 * Theme.margin
        y: first.y + 54 * Theme.u
        width: page.width - x - Theme.margin
        height: 4 * page.pitch
        rowHeight: (page.portrait ? 146 : 98) * Theme.u
        spacing: page.pitch - rowHeight
        interactive: false
        model: page.trail.entries
        onPicked: key => page.trail.choose(key)
    }

    Words {
        x: Theme.margin
        y: list.y + list.height + 2 * Theme.u
        width: page.width - 2 * Theme.margin
        text: page.trail.detail
        size: 30
        color: Theme.colours.ink2
        maximumLineCount: page.portrait ? 3 : 1
        elide: Text.ElideRight
    }

    Row {
        id: acts

        x: Theme.margin
        y: page.height - Theme.key - 10 * Theme.u
        spacing: Theme.gap

        readonly property real each: (page.width - 2 * Theme.margin - 3 * Theme.gap) / 4

        Press {
            width: acts.each
            title: qsTr("Filter")
            line: page.trail.filter
            onClicked: page.trail.nextFilter()
        }

        Press {
            width: acts.each
            title: qsTr("Earlier")
            line: qsTr("%1 more").arg(page.trail.earlier)
            enabled: page.trail.earlier > 0
            onClicked: page.trail.showEarlier()
        }

        Press {
            width: acts.each
            title: qsTr("Newer")
            line: qsTr("%1 more").arg(page.trail.later)
            enabled: page.trail.later > 0
            onClicked: page.trail.showLater()
        }

        Press {
            width: acts.each
            title: qsTr("Put right")
            line: qsTr("a new line")
            enabled: page.trail.canPutRight
            onClicked: page.tablet.putRight()
        }
    }
}
