// Set up: people, meters, how this tablet shows things, and what the program does not do.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Page {
    id: page

    readonly property real titleHeight: Math.max(50 * Theme.u, peopleTitle.height)
    readonly property real column: page.portrait ? page.width - 2 * Theme.margin : (page.width - 3 * Theme.margin) / 2

    said: qsTr("Set up")

    TopBar {
        id: bar

        BackKey {
            id: back

            to: qsTr("Yard")
            name: qsTr("Back to Yard")
            size: 36
            onClicked: page.tablet.back()
        }

        Words {
            anchors.left: back.right
            anchors.leftMargin: Theme.margin
            anchors.right: page.portrait ? look.left : textSize.left
            anchors.rightMargin: 12 * Theme.u
            anchors.verticalCenter: parent.verticalCenter
            visible: !page.portrait || page.tablet.demo
            text: page.portrait ? qsTr("DEMO") : page.tablet.demo ? qsTr("Set up, DEMO") : qsTr("Set up")
            bold: true
            size: 40
            maximumLineCount: 1
            elide: Text.ElideRight
            fontSizeMode: Text.HorizontalFit
            minimumPixelSize: Math.round(Theme.least)
        }

        TextSizeKey {
            id: textSize

            anchors.right: look.left
            anchors.rightMargin: Theme.gap
            y: 6 * Theme.u
            width: 210 * Theme.u
            height: Theme.target
            visible: !page.portrait
            tablet: page.tablet
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

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        y: bar.height + 10 * Theme.u
        text: qsTr("People")
        bold: true
        size: 36
    }

    RowsView {
        id: people

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        y: peopleTitle.y + page.titleHeight
        width: page.column
        height: page.portrait ? (page.height - bar.height - 2 * Theme.key - sound.height - 104 * Theme.u - 2 * page.titleHeight) / 2 : sound.y - y - 12 * Theme.u
        what: qsTr("people")
        rowHeight: 100 * Theme.u
        pressable: false
        model: page.tablet.people
    }

    Words {
        id: metersTitle

        anchors.left: parent.left
        anchors.leftMargin: page.portrait ? Theme.margin : 2 * Theme.margin + page.column
        y: page.portrait ? people.y + people.height + 10 * Theme.u : peopleTitle.y
        text: qsTr("Meters")
        bold: true
        size: 36
    }

    RowsView {
        anchors.left: metersTitle.left
        y: metersTitle.y + page.titleHeight
        what: qsTr("meters")
        width: page.column
        height: sound.y - y - 12 * Theme.u
        rowHeight: 100 * Theme.u
        pressable: false
        model: page.tablet.instruments
    }

    Press {
        id: sound

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        anchors.right: parent.right
        anchors.rightMargin: Theme.margin
        y: acts.y - height - 14 * Theme.u
        height: Theme.target
        visible: !messages.told
        enabled: page.tablet.canSound
        title: page.tablet.canSound ? qsTr("Try the alarm's sound") : qsTr("Nothing here sounds: an alarm is seen, not heard")
        size: 32
        onClicked: page.tablet.trySound()
    }

    Messages {
        id: messages

        anchors.fill: sound
        tablet: page.tablet
    }

    Flow {
        id: acts

        readonly property int across: page.portrait ? 4 : 6
        readonly property real each: Math.floor((width - (across - 1) * spacing) / across)

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        width: page.width - 2 * Theme.margin
        y: page.height - height - 14 * Theme.u
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
            title: qsTr("To ask")
            line: qsTr("in person")
            name: qsTr("Questions to ask in person")
            size: 32
            onClicked: page.tablet.showQuestions()
        }

        TextSizeKey {
            width: 2 * acts.each + acts.spacing
            visible: page.portrait
            tablet: page.tablet
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
