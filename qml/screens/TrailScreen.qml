// The entries of one vessel, newest first, against its way through the gates.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Page {
    id: page

    readonly property TrailPage trail: page.tablet.trail
    readonly property real wayWidth: page.portrait || Theme.large ? 150 * Theme.u : 400 * Theme.u
    readonly property bool tight: !page.portrait && Theme.text <= 1 // four rows above a detail of two lines
    readonly property real between: (tight ? 10 : 14) * Theme.u
    readonly property real pitch: (page.portrait ? (Theme.text > 1 ? 270 : 160) : Theme.large ? 168 : Theme.text > 1 ? 146 : 105) * Theme.u
    property bool cut: false // words too long for four keys in a row
    readonly property real inner: page.width - page.wayWidth - 3 * Theme.margin

    said: page.trail.links

    PlateBar {
        id: bar

        tablet: page.tablet
    }

    Words {
        id: first

        anchors.left: parent.left
        anchors.leftMargin: page.wayWidth + 2 * Theme.margin
        y: bar.height + (Theme.large || page.tight ? 8 : 20) * Theme.u
        width: page.inner / 2 - 12 * Theme.u
        text: page.trail.later > 0 ? qsTr("%1 are newer").arg(page.trail.later) : qsTr("Newest first")
        bold: true
        size: 32
        cap: 44
        wrapMode: Text.WordWrap
    }

    Words {
        id: links

        anchors.right: parent.right
        anchors.rightMargin: Theme.margin
        y: first.y
        width: page.inner / 2 - 12 * Theme.u
        horizontalAlignment: Text.AlignRight
        text: page.trail.links
        bold: true
        size: 32
        cap: 44
        wrapMode: Text.WordWrap
    }

    Item {
        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        y: list.y
        width: page.wayWidth
        height: list.height
        clip: true

        WayDrawing {
            y: -list.shift
            width: parent.width
            height: 4 * page.pitch
            reaches: page.trail.reaches
            stages: page.trail.stages
            pitch: page.pitch
            unit: Theme.u
            theme: Theme.name
        }
    }

    RowsView {
        id: list

        anchors.left: parent.left
        anchors.leftMargin: page.wayWidth + 2 * Theme.margin
        y: first.y + Math.max(54 * Theme.u, first.height + 4 * Theme.u, links.height + 4 * Theme.u)
        width: page.inner
        height: Math.min(4 * page.pitch - page.between, detail.y - y - 2 * Theme.u)
        rowHeight: page.pitch - page.between
        spacing: page.between
        grow: false
        interactive: height < 4 * page.pitch - page.between
        what: qsTr("entries")
        model: page.trail.entries
        onPicked: key => page.trail.choose(key)
    }

    Pager {
        id: detail

        readonly property real low: (page.portrait ? 120 : page.tight ? 80 : 44) * Theme.u // so that the rows stay where they are

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        y: acts.y - height - 6 * Theme.u
        width: page.width - 2 * Theme.margin
        height: implicitHeight <= low ? low : Math.max(Theme.target, Math.min(implicitHeight, 120 * Theme.u))
        what: qsTr("the entry")
        words: page.trail.detail

        Words {
            width: detail.room
            text: page.trail.detail
            size: 30
            color: Theme.colours.ink2
        }
    }

    Grid {
        id: acts

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        y: page.height - height - 10 * Theme.u
        columns: page.portrait && (page.cut || Theme.large) ? 2 : 4
        spacing: Theme.gap

        readonly property real each: (page.width - 2 * Theme.margin - (columns - 1) * Theme.gap) / columns

        Press {
            width: acts.each
            onCutChanged: page.cut = page.cut || cut
            title: qsTr("Filter")
            line: page.trail.filter
            onClicked: page.trail.nextFilter()
        }

        Press {
            width: acts.each
            onCutChanged: page.cut = page.cut || cut
            title: qsTr("Earlier")
            line: qsTr("%1 more").arg(page.trail.earlier)
            enabled: page.trail.earlier > 0
            onClicked: page.trail.showEarlier()
        }

        Press {
            width: acts.each
            onCutChanged: page.cut = page.cut || cut
            title: qsTr("Newer")
            line: qsTr("%1 more").arg(page.trail.later)
            enabled: page.trail.later > 0
            onClicked: page.trail.showLater()
        }

        Press {
            width: acts.each
            onCutChanged: page.cut = page.cut || cut
            title: qsTr("Put right")
            line: qsTr("a new line")
            enabled: page.trail.canPutRight
            onClicked: page.tablet.putRight()
        }
    }
}
