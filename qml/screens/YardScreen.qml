// The yard: vessels at one common scale, in the order in which they need somebody.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Page {
    id: page

    readonly property YardPage yard: page.tablet.yard
    readonly property real drawn: (page.portrait ? (Theme.text > 1 ? 110 : 220) : Theme.large ? 200 : 336) * Theme.u

    said: "%1. %2".arg(page.yard.name).arg(page.yard.line)
    onSlash: scan.forceActiveFocus()
    onBlack: {
        const text = scan.text;
        scan.clear();
        page.tablet.scanned(text);
    }
    onTyped: text => {
        if (!scan.activeFocus) {
            scan.forceActiveFocus();
            if (text !== "/") {
                scan.insert(scan.length, text);
            }
        }
    }

    TopBar {
        id: bar

        height: page.portrait ? 196 * Theme.u : Theme.plate

        Column {
            id: brand

            anchors.left: parent.left
            anchors.leftMargin: Theme.margin
            y: 6 * Theme.u
            width: page.portrait ? bar.width - 3 * (addVessel.width + Theme.gap) - 2 * Theme.margin : 300 * Theme.u

            Words {
                width: parent.width
                text: page.yard.name
                bold: true
                size: 36
                cap: 36
                maximumLineCount: 1
                elide: Text.ElideRight
                fontSizeMode: Text.HorizontalFit
                minimumPixelSize: Math.round(Theme.least)
            }

            Words {
                width: parent.width
                text: page.tablet.demo && page.yard.message === "" ? qsTr("DEMO") : page.yard.line
                bold: page.tablet.demo
                fontSizeMode: Text.HorizontalFit
                minimumPixelSize: Math.round(Theme.least)
                size: 30
                cap: 30
                color: Theme.colours.ink2
                maximumLineCount: 1
                elide: Text.ElideRight
            }
        }

        WriteField {
            id: scan

            anchors.left: parent.left
            anchors.leftMargin: page.portrait ? Theme.margin : 336 * Theme.u
            anchors.right: page.portrait ? parent.right : addVessel.left
            anchors.rightMargin: page.portrait ? Theme.margin : Theme.gap
            y: page.portrait ? 104 * Theme.u : 6 * Theme.u
            height: Theme.target
            leftPadding: (Theme.mirrored ? 22 : 90) * Theme.u
            rightPadding: (Theme.mirrored ? 90 : 22) * Theme.u
            name: qsTr("Scan or type a number")
            placeholderText: hint.advanceWidth < width - 112 * Theme.u ? hint.text : ""
            font.pixelSize: Math.min(32 * Theme.text, 60) * Theme.u
            inputMethodHints: Qt.ImhNoPredictiveText

            TextMetrics {
                id: hint

                font: scan.font
                text: qsTr("Scan or type a number")
            }

            Glyph {
                anchors.left: parent.left
                anchors.leftMargin: 20 * Theme.u
                anchors.verticalCenter: parent.verticalCenter
                width: 54 * Theme.u
                height: 54 * Theme.u
                name: "scan"
                ink: Theme.colours.ink
                theme: Theme.name
            }
        }

        Press {
            id: addVessel

            anchors.right: settings.left
            anchors.rightMargin: Theme.gap
            y: 6 * Theme.u
            width: 130 * Theme.u
            height: Theme.target
            title: qsTr("Add")
            name: qsTr("Add a vessel")
            size: 34
            onClicked: page.tablet.add()
        }

        Press {
            id: settings

            anchors.right: speak.left
            anchors.rightMargin: Theme.gap
            y: 6 * Theme.u
            width: 130 * Theme.u
            height: Theme.target
            title: qsTr("Set up")
            size: 32
            onClicked: page.tablet.setUp()
        }

        Press {
            id: speak

            anchors.right: parent.right
            anchors.rightMargin: 6 * Theme.u
            y: 6 * Theme.u
            width: 130 * Theme.u
            height: Theme.target
            glyph: Theme.large ? "voice" : ""
            title: Theme.large ? "" : qsTr("Speak\nup")
            name: qsTr("Speak up")
            size: 30
            onClicked: page.tablet.speakUp()
        }
    }

    Words {
        visible: page.yard.count === 0
        anchors.centerIn: parent
        width: parent.width - 4 * Theme.margin
        horizontalAlignment: Text.AlignHCenter
        text: qsTr("No vessel yet. Press Add when one comes in.")
        size: 40
        bold: true
    }

    ListView {
        id: list

        anchors.left: parent.left
        width: parent.width - (turn.visible ? turn.width + Theme.gap : 0)
        anchors.top: bar.bottom
        anchors.bottom: parent.bottom
        anchors.bottomMargin: messages.told ? messages.height + 12 * Theme.u : 0
        clip: true
        topMargin: 12 * Theme.u
        model: page.yard
        boundsBehavior: Flickable.StopAtBounds
        cacheBuffer: 400

        delegate: Press {
            id: row

            required property string number
            required property string next
            required property string hazard
            required property string colour
            required property string word
            required property string clock
            required property string caption
            required property string spoken
            required property vesselPicture picture
            required glyph
            required line

            width: list.width
            height: (page.portrait ? 197 : 157) * Theme.text * Theme.u
            name: spoken
            onClicked: page.tablet.openVessel(number)

            background: Rectangle {
                color: row.down ? Theme.colours.steel : "transparent"

                Rectangle {
                    anchors.fill: parent
                    anchors.margins: 4 * Theme.u
                    visible: row.visualFocus
                    color: "transparent"
                    radius: Theme.corner
                    border.width: 5 * Theme.u
                    border.color: Theme.colours.ink
                }
            }

            contentItem: YardRow {
                drawn: page.drawn
                metres: page.yard.metresLongest * 1.08
                portrait: page.portrait
                number: row.number
                next: row.next
                hazard: row.hazard
                colour: row.colour
                word: row.word
                clock: row.clock
                caption: row.caption
                picture: row.picture
                glyph: row.glyph
                line: row.line
            }
        }
    }

    PageKey {
        id: turn

        anchors.right: parent.right
        anchors.rightMargin: 12 * Theme.u
        anchors.bottom: parent.bottom
        anchors.bottomMargin: 12 * Theme.u
        visible: needed && Theme.text > 1
        of: list
        what: qsTr("vessels")
    }

    Messages {
        id: messages

        anchors.left: parent.left
        anchors.leftMargin: 6 * Theme.u
        anchors.right: turn.visible ? turn.left : parent.right
        anchors.rightMargin: (turn.visible ? 18 : 6) * Theme.u
        anchors.bottom: parent.bottom
        anchors.bottomMargin: 6 * Theme.u
        tablet: page.tablet
    }
}
