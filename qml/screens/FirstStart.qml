// No yard on this tablet yet: three ways on.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Page {
    id: page

    property bool folder: false

    said: qsTr("No yard on this tablet yet.")
    onBlack: folder ? page.tablet.openFolder(path.text) : page.tablet.newYard()

    TopBar {
        id: bar

        Words {
            id: brand

            anchors.left: parent.left
            anchors.leftMargin: Theme.margin
            anchors.verticalCenter: parent.verticalCenter
            visible: !messages.told
            text: qsTr("Brimful")
            bold: true
            size: 46
            cap: 72
        }

        Words {
            visible: !page.portrait && !messages.told
            anchors.left: brand.right
            anchors.leftMargin: (Theme.large ? 24 : 56) * Theme.u
            anchors.right: unitsKey.left
            anchors.rightMargin: 12 * Theme.u
            anchors.verticalCenter: parent.verticalCenter
            text: qsTr("No yard on this tablet yet.")
            size: 32
            color: Theme.colours.ink2
            maximumLineCount: 1
            fontSizeMode: Text.HorizontalFit
            minimumPixelSize: Math.round(Theme.least)
        }

        Messages {
            id: messages

            anchors.left: parent.left
            anchors.leftMargin: 6 * Theme.u
            anchors.right: unitsKey.left
            anchors.rightMargin: 12 * Theme.u
            y: 6 * Theme.u
            tablet: page.tablet
        }

        Press {
            id: unitsKey

            anchors.right: parent.right
            anchors.rightMargin: 12 * Theme.u
            y: 6 * Theme.u
            width: 190 * Theme.u
            height: Theme.target
            title: page.tablet.units
            name: qsTr("Units: %1").arg(page.tablet.units)
            size: 32
            onClicked: page.tablet.nextUnits()
        }
    }

    Pager {
        id: head

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        y: bar.height + 12 * Theme.u
        width: (page.portrait ? page.width : page.width - Theme.hand - Theme.gap) - 2 * Theme.margin
        height: Math.min(implicitHeight, (page.portrait ? ways.y : page.height) - y - foot.height - 36 * Theme.u)
        what: qsTr("what it says")

        Words {
            width: head.room
            text: qsTr("Start here.")
            bold: true
            size: 60
            cap: 80
        }

        Words {
            width: head.room
            text: qsTr("It says what was proven, by whom, until when. It never says that a vessel may be trusted.")
            size: 32
        }
    }

    Item {
        id: picture

        anchors.left: head.left
        anchors.top: head.bottom
        anchors.topMargin: 24 * Theme.u
        width: head.width
        height: Math.min(330 * Theme.u, page.height - head.y - head.height - foot.height - (page.portrait ? 804 : 104) * Theme.u)
        visible: height > 150 * Theme.u

        Box {
            anchors.centerIn: parent
            width: 500 * Theme.u
            height: 190 * Theme.u
            unit: Theme.u * 2
            fill: Theme.colours.panel
            ink: Theme.colours.ink
            line: 9 * Theme.u
            corner: 95 * Theme.u
            broken: true

            Column {
                anchors.centerIn: parent
                width: 420 * Theme.u
                spacing: 3 * Theme.u

                Words {
                    width: parent.width
                    horizontalAlignment: Text.AlignHCenter
                    text: qsTr("nothing proven yet")
                    bold: true
                    size: 32
                    cap: 32
                }

                Words {
                    width: parent.width
                    horizontalAlignment: Text.AlignHCenter
                    text: qsTr("broken line = believed")
                    size: 32
                    cap: 32
                    color: Theme.colours.ink2
                }
            }
        }
    }

    Pager {
        id: foot

        anchors.left: head.left
        y: page.portrait ? picture.y + (picture.visible ? picture.height : 0) : page.height - height - Theme.margin
        width: head.width
        height: Math.min(implicitHeight, 170 * Theme.u)
        what: qsTr("where the record is")

        Words {
            width: foot.room
            text: page.tablet.message !== "" ? page.tablet.message : qsTr("Works with no network.")
            bold: true
            size: 32
        }

        Words {
            width: foot.room
            text: qsTr("The record stays in %1").arg(page.tablet.folder)
            size: 30
            color: Theme.colours.ink2
            wrapMode: Text.WrapAnywhere
        }
    }

    Column {
        id: ways

        readonly property real each: 150 * Theme.u

        anchors.right: parent.right
        anchors.rightMargin: Theme.margin
        anchors.bottom: page.portrait ? parent.bottom : undefined
        anchors.bottomMargin: Theme.margin
        y: bar.height + 24 * Theme.u
        width: page.portrait ? page.width - 2 * Theme.margin : Theme.hand
        spacing: Theme.gap

        Press {
            width: parent.width
            height: ways.each
            visible: !page.folder
            black: true
            title: qsTr("New yard")
            line: qsTr("5 things: name, clock, law, you, PIN")
            size: 44
            onClicked: page.tablet.newYard()
        }

        Press {
            width: parent.width
            height: ways.each
            visible: !page.folder
            title: qsTr("Open a yard folder")
            line: qsTr("one that is already here")
            size: 44
            onClicked: {
                page.folder = true;
                path.forceActiveFocus();
            }
        }

        Press {
            width: parent.width
            height: ways.each
            visible: !page.folder
            title: qsTr("Look round the demo")
            line: qsTr("8 made-up vessels, nothing real")
            size: 44
            onClicked: page.tablet.lookRoundDemo()
        }

        Words {
            visible: page.folder
            width: parent.width
            text: qsTr("Where is the yard's folder?")
            bold: true
            size: 36
        }

        WriteField {
            id: path

            visible: page.folder
            width: parent.width
            name: qsTr("Yard folder")
        }

        Press {
            visible: page.folder
            width: parent.width
            height: Theme.key
            black: true
            title: qsTr("Open it")
            size: 42
            onClicked: page.tablet.openFolder(path.text)
        }

        Press {
            visible: page.folder
            width: parent.width
            height: Theme.key
            title: qsTr("Back")
            size: 36
            onClicked: page.folder = false
        }
    }
}
