// The yard: vessels at one common scale, in the order in which they need somebody.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Page {
    id: page

    readonly property YardPage yard: page.tablet.yard
    readonly property real drawn: page.portrait ? 220 * Theme.u : 336 * Theme.u

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

    component RowFace: Item {
        id: row

        required property real drawn
        required property real metres
        required property bool portrait
        required property string number
        required property string next
        required property string hazard
        required property string colour
        required property string word
        required property string clock
        required property string caption
        required property vesselPicture picture
        required property string glyph
        required property string line

        VesselDrawing {
            x: 16 * Theme.u
            y: 2 * Theme.u
            width: row.drawn
            height: 138 * Theme.u
            picture: row.picture
            metres: row.metres
            labels: false
            unit: Theme.u * 0.6
            theme: Theme.name
        }

        Column {
            x: row.drawn + 40 * Theme.u
            anchors.verticalCenter: parent.verticalCenter
            width: standing.x - x - 12 * Theme.u
            spacing: 4 * Theme.u

            Words {
                text: row.number
                mono: true
                bold: true
                size: 46
                wrapMode: Text.NoWrap
            }

            Words {
                width: parent.width
                text: row.next
                size: 30
                whole: false
                maximumLineCount: 2
                elide: Text.ElideRight
            }
        }

        Rectangle {
            id: standing

            anchors.right: parent.right
            anchors.rightMargin: row.portrait ? 12 * Theme.u : 226 * Theme.u
            y: 0
            width: (row.portrait ? 330 : 432) * Theme.u
            height: (row.portrait ? 181 : 141) * Theme.u
            radius: 6 * Theme.u
            color: Theme.colours.panel
            border.width: Theme.line
            border.color: Theme.colours.ink

            Rectangle {
                width: parent.width
                height: 44 * Theme.u
                radius: 6 * Theme.u
                color: Theme.signal(row.colour)
                border.width: Theme.line
                border.color: Theme.colours.ink

                Words {
                    x: 18 * Theme.u
                    anchors.verticalCenter: parent.verticalCenter
                    text: row.hazard
                    bold: true
                    size: 30
                    color: Theme.onSignal(row.colour)
                }

                Words {
                    visible: row.portrait
                    anchors.right: parent.right
                    anchors.rightMargin: 12 * Theme.u
                    anchors.verticalCenter: parent.verticalCenter
                    text: row.clock
                    bold: true
                    size: 34
                    color: Theme.onSignal(row.colour)
                }
            }

            Glyph {
                x: 10 * Theme.u
                y: 66 * Theme.u
                width: 52 * Theme.u
                height: 52 * Theme.u
                name: row.glyph
                ink: Theme.colours.ink
                theme: Theme.name
            }

            Words {
                x: 70 * Theme.u
                y: 50 * Theme.u
                width: parent.width - x - 4 * Theme.u
                text: row.word
                bold: true
                size: 36
                maximumLineCount: 1
                fontSizeMode: Text.HorizontalFit
                minimumPixelSize: Math.round(Theme.least)
            }

            Words {
                x: 70 * Theme.u
                y: 94 * Theme.u
                width: parent.width - x - 4 * Theme.u
                text: row.line
                size: 30
                maximumLineCount: row.portrait ? 2 : 1
                elide: Text.ElideRight
            }
        }

        Column {
            visible: !row.portrait && row.clock !== ""
            anchors.right: parent.right
            anchors.rightMargin: Theme.margin
            anchors.verticalCenter: parent.verticalCenter

            Words {
                anchors.right: parent.right
                text: row.clock
                bold: true
                size: row.clock.length > 5 ? 48 : 62
                wrapMode: Text.NoWrap
            }

            Words {
                anchors.right: parent.right
                text: row.caption
                size: 30
                color: Theme.colours.ink2
                wrapMode: Text.NoWrap
            }
        }
    }

    Item {
        id: bar

        width: parent.width
        height: page.portrait ? 196 * Theme.u : Theme.plate

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

        Column {
            x: Theme.margin
            y: 6 * Theme.u
            width: (page.portrait ? 360 : 300) * Theme.u

            Words {
                width: parent.width
                text: page.yard.name
                bold: true
                size: 36
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
                color: Theme.colours.ink2
                maximumLineCount: 1
                elide: Text.ElideRight
            }
        }

        WriteField {
            id: scan

            x: page.portrait ? Theme.margin : 336 * Theme.u
            y: page.portrait ? 104 * Theme.u : 6 * Theme.u
            width: (page.portrait ? bar.width - Theme.margin : addVessel.x - Theme.gap) - x
            height: Theme.target
            leftPadding: 90 * Theme.u
            name: qsTr("Scan or type a number")
            placeholderText: qsTr("Scan or type a number")
            font.pixelSize: 32 * Theme.u
            inputMethodHints: Qt.ImhNoPredictiveText

            Glyph {
                x: 20 * Theme.u
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
            title: qsTr("Speak\nup")
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
        anchors.right: parent.right
        anchors.top: bar.bottom
        anchors.bottom: parent.bottom
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
            height: (page.portrait ? 197 : 157) * Theme.u
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

            contentItem: RowFace {
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
}
