// Set up: people, meters, how this tablet shows things, and what the program does not do.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Page {
    id: page

    readonly property real column: page.portrait ? page.width - 2 * Theme.margin : (page.width - 3 * Theme.margin) / 2

    Item {
        id: bar

        width: parent.width
        height: Theme.plate

        Rectangle {
            anchors.fill: parent
            color: Theme.colours.panel
        }

        Rectangle {
            anchors.bottom: parent.bottom
            width: parent.width
            height: Theme.line
            color: Theme.colours.ink
        }

        Press {
            id: back

            x: 6 * Theme.u
            y: 6 * Theme.u
            width: 190 * Theme.u
            lines: 1
            height: Theme.target
            glyph: "back"
            title: qsTr("Yard")
            name: qsTr("Back to Yard")
            leftAligned: true
            onClicked: page.tablet.back()
        }

        Words {
            anchors.left: back.right
            anchors.leftMargin: Theme.margin
            anchors.verticalCenter: parent.verticalCenter
            visible: !page.portrait || page.tablet.demo
            text: page.portrait ? qsTr("DEMO") : page.tablet.demo ? qsTr("Set up, DEMO") : qsTr("Set up")
            bold: true
            size: 40
        }

        Press {
            id: look

            anchors.right: unitsKey.left
            anchors.rightMargin: Theme.gap
            y: 6 * Theme.u
            width: 200 * Theme.u
            height: Theme.target
            title: page.tablet.theme === "dark" ? qsTr("Dark") : page.tablet.theme === "sunlight" ? qsTr("Sunlight") : qsTr("Light")
            name: qsTr("Theme: %1").arg(title)
            size: 32
            onClicked: page.tablet.nextTheme()
        }

        Press {
            id: unitsKey

            anchors.right: parent.right
            anchors.rightMargin: 12 * Theme.u
            y: 6 * Theme.u
            width: 170 * Theme.u
            height: Theme.target
            title: page.tablet.units
            name: qsTr("Units: %1").arg(title)
            size: 32
            onClicked: page.tablet.nextUnits()
        }
    }

    Words {
        id: peopleTitle

        x: Theme.margin
        y: bar.height + 10 * Theme.u
        text: qsTr("People")
        bold: true
        size: 36
    }

    RowsView {
        id: people

        x: Theme.margin
        y: peopleTitle.y + 50 * Theme.u
        width: page.column
        height: page.portrait ? (page.height - bar.height - 2 * Theme.key - 190 * Theme.u) / 2 : acts.y - y - 12 * Theme.u
        rowHeight: 100 * Theme.u
        pressable: false
        model: page.tablet.people
    }

    Words {
        id: metersTitle

        x: page.portrait ? Theme.margin : 2 * Theme.margin + page.column
        y: page.portrait ? people.y + people.height + 10 * Theme.u : peopleTitle.y
        text: qsTr("Meters")
        bold: true
        size: 36
    }

    RowsView {
        x: metersTitle.x
        y: metersTitle.y + 50 * Theme.u
        width: page.column
        height: acts.y - y - 12 * Theme.u
        rowHeight: 100 * Theme.u
        pressable: false
        model: page.tablet.instruments
    }

    Grid {
        id: acts

        readonly property int across: page.portrait ? 3 : 5
        readonly property real each: (page.width - 2 * Theme.margin - (across - 1) * Theme.gap) / across

        x: Theme.margin
        y: page.height - height - 14 * Theme.u
        columns: across
        spacing: Theme.gap

        Press {
            width: acts.each
            title: qsTr("Add a person")
            size: 32
            onClicked: page.tablet.addPerson()
        }

        Press {
            width: acts.each
            title: qsTr("Add a meter")
            size: 32
            onClicked: page.tablet.addInstrument()
        }

        Press {
            width: acts.each
            title: qsTr("Bump check")
            size: 32
            onClicked: page.tablet.bumpCheck()
        }

        Press {
            width: acts.each
            title: page.tablet.adopted ? qsTr("The law") : qsTr("Take on the rules")
            size: 32
            black: !page.tablet.adopted
            onClicked: page.tablet.adopted ? page.tablet.showLaw() : page.tablet.adopt()
        }

        Press {
            width: acts.each
            title: qsTr("About")
            line: qsTr("its limits")
            size: 32
            onClicked: page.tablet.showAbout()
        }
    }
}
