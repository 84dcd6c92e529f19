// One vessel: the drawing is the interface. Named parts round it, the run of gates, one card, one black button.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Page {
    id: page

    readonly property VesselPage vessel: page.tablet.vessel
    readonly property real tabWidth: (page.portrait ? 180 : 164) * Theme.u

    onBlack: page.tablet.nextThing()

    PlateBar {
        id: bar

        tablet: page.tablet
        backTo: qsTr("Yard")
    }

    component Tab: Press {
        id: tab

        required property Tablet tablet
        required property string key
        required property bool solid
        required title
        required line
        required glyph

        height: Theme.target
        size: 32
        lines: 1
        padding: 4 * Theme.u
        broken: !solid
        hangs: key === "tag"
        name: qsTr("%1, %2, opens it").arg(title).arg(line)
        onClicked: tab.tablet.openPart(tab.key)
    }

    component CardFace: Item {
        id: face

        required property VesselPage vessel

        Glyph {
            id: sign

            x: 12 * Theme.u
            y: 6 * Theme.u
            width: 60 * Theme.u
            height: 60 * Theme.u
            name: face.vessel.glyph
            ink: Theme.colours.ink
            theme: Theme.name
        }

        Column {
            anchors.left: sign.right
            anchors.leftMargin: 20 * Theme.u
            anchors.right: parent.right
            anchors.rightMargin: 8 * Theme.u
            anchors.verticalCenter: parent.verticalCenter

            Words {
                width: parent.width
                text: face.vessel.message !== "" ? face.vessel.message : face.vessel.reason
                bold: true
                size: 34
                maximumLineCount: face.vessel.remedy === "" ? 3 : 2
                elide: Text.ElideRight
            }

            Words {
                width: parent.width
                text: face.vessel.who === "" ? face.vessel.remedy : qsTr("%1 %2.").arg(face.vessel.remedy).arg(face.vessel.who)
                visible: text !== ""
                size: 32
                maximumLineCount: 1
                elide: Text.ElideRight
                fontSizeMode: Text.HorizontalFit
                minimumPixelSize: Math.round(Theme.least)
            }
        }
    }

    Row {
        id: openings

        readonly property int shown: Math.min(page.vessel.openings.count, 5)

        x: page.portrait ? 12 * Theme.u : 229 * Theme.u
        y: bar.height + 12 * Theme.u
        spacing: Theme.gap

        Repeater {
            model: page.vessel.openings

            Tab {
                required property int index

                tablet: page.tablet

                visible: index < 5
                width: page.portrait ? (page.width - 24 * Theme.u - 4 * Theme.gap) / 5 : Math.min(150 * Theme.u, (page.width - 2 * 229 * Theme.u - 4 * Theme.gap) / 5)
            }
        }
    }

    Grid {
        id: leftTabs

        x: page.portrait ? 12 * Theme.u : Theme.margin
        y: page.portrait ? drawing.y + drawing.height + 12 * Theme.u : bar.height + 12 * Theme.u
        columns: page.portrait ? 4 : 1
        spacing: Theme.gap

        Repeater {
            model: page.vessel.left

            Tab {
                tablet: page.tablet
                width: page.portrait ? (page.width - 24 * Theme.u - 3 * Theme.gap) / 4 : page.tabWidth
            }
        }
    }

    Grid {
        id: rightTabs

        x: page.portrait ? 12 * Theme.u : page.width - Theme.margin - page.tabWidth
        y: page.portrait ? leftTabs.y + leftTabs.height + Theme.gap : bar.height + 12 * Theme.u
        columns: page.portrait ? 4 : 1
        spacing: Theme.gap

        Repeater {
            model: page.vessel.right

            Tab {
                tablet: page.tablet
                width: page.portrait ? (page.width - 24 * Theme.u - 3 * Theme.gap) / 4 : page.tabWidth
            }
        }
    }

    VesselDrawing {
        id: drawing

        x: page.portrait ? 12 * Theme.u : Theme.margin + page.tabWidth
        y: openings.y + Theme.target + 2 * Theme.u
        width: page.width - 2 * x
        height: (page.portrait ? 330 : 302) * Theme.u
        side: page.portrait ? 0 : 112 * Theme.u
        picture: page.vessel.picture
        unit: Theme.u
        theme: Theme.name
        tabPitch: page.portrait ? 0 : 102 * Theme.u
        leftParts: ["tilt", "water"]
        rightParts: ["places", "cut"]

        Accessible.role: Accessible.Graphic
        Accessible.name: page.vessel.spoken

        TapHandler {
            onTapped: eventPoint => {
                const part = drawing.partAt(eventPoint.position.x, eventPoint.position.y, Theme.target);
                if (part !== "") {
                    page.tablet.openPart(part);
                }
            }
        }
    }

    Item {
        id: runBox

        x: page.portrait ? 12 * Theme.u : Theme.margin
        y: page.portrait ? rightTabs.y + rightTabs.height + 6 * Theme.u : 500 * Theme.u + bar.height - Theme.plate
        width: page.width - 2 * x
        height: 114 * Theme.u

        RunDrawing {
            id: run

            anchors.fill: parent
            picture: page.vessel.picture
            names: page.vessel.gateNames
            unit: Theme.u
            theme: Theme.name
        }

        Repeater {
            model: page.vessel.gates

            Press {
                id: gate

                required property string key
                required title

                readonly property rect place: page.vessel.picture !== undefined && run.width > 0 ? run.placeOf(key) : Qt.rect(0, 0, 0, 0)

                visible: place.width > 0
                x: place.x + place.width / 2 - width / 2
                y: (run.height - height) / 2
                width: key.startsWith("gate") ? Theme.target : Math.max(30 * Theme.u, place.width - Theme.target)
                height: key.startsWith("gate") ? run.height : Theme.target
                name: title
                background: Item {
                    FocusRing {
                        anchors.margins: 0
                        visible: gate.visualFocus
                    }
                }
                contentItem: Item {}
                onClicked: page.tablet.openPart(key)
            }
        }
    }

    Press {
        id: card

        x: page.portrait ? 12 * Theme.u : Theme.margin
        y: page.portrait ? runBox.y + runBox.height + 6 * Theme.u : page.height - height - (page.tablet.demo ? 6 : 12) * Theme.u
        width: page.portrait ? page.width - 24 * Theme.u : page.width - 2 * Theme.margin - 318 * Theme.u
        height: 162 * Theme.u
        name: qsTr("%1 %2 %3").arg(page.vessel.reason).arg(page.vessel.remedy).arg(page.vessel.who)
        onClicked: page.tablet.openHeld()

        contentItem: CardFace {
            vessel: page.vessel
        }
    }

    Press {
        x: page.portrait ? 12 * Theme.u : page.width - Theme.margin - width
        y: page.portrait ? page.height - height - 12 * Theme.u : card.y
        width: page.portrait ? page.width - 24 * Theme.u : 300 * Theme.u
        height: page.portrait ? Theme.key : card.height
        black: true
        title: page.vessel.button
        size: 42
        lines: 3
        enabled: title !== ""
        onClicked: page.tablet.nextThing()
    }
}
