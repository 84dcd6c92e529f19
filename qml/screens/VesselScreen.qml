// One vessel: the drawing is the interface. Named parts round it, the run of gates, one card, one black button.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Page {
    id: page

    readonly property VesselPage vessel: page.tablet.vessel
    // Words too long for the tabs, or large letters: the parts stand in one column that pages.
    property bool cut: false
    readonly property bool column: cut || Theme.large
    readonly property real edge: page.portrait ? 12 * Theme.u : Theme.margin
    readonly property real tabWidth: (page.portrait ? 180 : 164) * Theme.u

    said: "%1 %2. %3 %4".arg(page.vessel.message).arg(page.tablet.plate.spoken).arg(page.vessel.reason).arg(page.vessel.remedy)
    onBlack: page.tablet.nextThing()

    PlateBar {
        id: bar

        tablet: page.tablet
        backTo: qsTr("Yard")
    }

    Row {
        id: openings

        visible: !page.column
        LayoutMirroring.enabled: false // they stand round the drawing as its parts do

        readonly property int shown: Math.min(page.vessel.openings.count, 5)

        x: page.portrait ? 12 * Theme.u : 229 * Theme.u
        y: bar.height + 12 * Theme.u
        spacing: Theme.gap

        Repeater {
            model: page.vessel.openings

            PartTab {
                onCutChanged: page.cut = page.cut || cut
                required property int index

                tablet: page.tablet

                visible: index < 5
                width: page.portrait ? (page.width - 24 * Theme.u - 4 * Theme.gap) / 5 : Math.min(150 * Theme.u, (page.width - 2 * 229 * Theme.u - 4 * Theme.gap) / 5)
            }
        }
    }

    Grid {
        id: leftTabs

        visible: !page.column
        LayoutMirroring.enabled: false // they stand round the drawing as its parts do

        x: page.portrait ? 12 * Theme.u : Theme.margin
        y: page.portrait ? drawing.y + drawing.height + 12 * Theme.u : bar.height + 12 * Theme.u
        columns: page.portrait ? 4 : 1
        spacing: Theme.gap

        Repeater {
            model: page.vessel.left

            PartTab {
                onCutChanged: page.cut = page.cut || cut
                tablet: page.tablet
                width: page.portrait ? (page.width - 24 * Theme.u - 3 * Theme.gap) / 4 : page.tabWidth
            }
        }
    }

    Grid {
        id: rightTabs

        visible: !page.column
        LayoutMirroring.enabled: false // they stand round the drawing as its parts do

        x: page.portrait ? 12 * Theme.u : page.width - Theme.margin - page.tabWidth
        y: page.portrait ? leftTabs.y + leftTabs.height + Theme.gap : bar.height + 12 * Theme.u
        columns: page.portrait ? 4 : 1
        spacing: Theme.gap

        Repeater {
            model: page.vessel.right

            PartTab {
                onCutChanged: page.cut = page.cut || cut
                tablet: page.tablet
                width: page.portrait ? (page.width - 24 * Theme.u - 3 * Theme.gap) / 4 : page.tabWidth
            }
        }
    }

    VesselDrawing {
        id: drawing

        anchors.left: parent.left
        anchors.leftMargin: page.portrait || page.column ? page.edge : Theme.margin + page.tabWidth
        y: page.column ? bar.height + 8 * Theme.u : openings.y + Theme.target + 2 * Theme.u
        width: page.width - (page.column ? 2 * page.edge + (page.portrait ? 0 : parts.width + Theme.gap) : 2 * (page.portrait ? 12 * Theme.u : Theme.margin + page.tabWidth))
        height: page.column ? (page.portrait ? 250 * Theme.u : runBox.y - y - 6 * Theme.u) : (page.portrait ? 330 : 302) * Theme.u
        side: page.portrait || page.column ? 0 : 112 * Theme.u
        picture: page.vessel.picture
        unit: Theme.u
        theme: Theme.name
        tabPitch: page.portrait || page.column ? 0 : 102 * Theme.u
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

    Pager {
        id: parts

        visible: page.column
        anchors.right: parent.right
        anchors.rightMargin: page.edge
        y: page.portrait ? drawing.y + drawing.height + 8 * Theme.u : bar.height + 12 * Theme.u
        width: page.portrait ? page.width - 2 * page.edge : 500 * Theme.u
        height: runBox.y - y - 6 * Theme.u
        spacing: 12 * Theme.u
        what: qsTr("parts")

        Repeater {
            model: page.column ? page.vessel.openings : null

            PartRow {
                tablet: page.tablet
                width: parts.room
            }
        }

        Repeater {
            model: page.column ? page.vessel.left : null

            PartRow {
                tablet: page.tablet
                width: parts.room
            }
        }

        Repeater {
            model: page.column ? page.vessel.right : null

            PartRow {
                tablet: page.tablet
                width: parts.room
            }
        }
    }

    Item {
        id: runBox

        x: page.portrait ? 12 * Theme.u : Theme.margin
        y: page.portrait ? (page.column ? page.height - height - Theme.key - (12 + 12 + 162 + 6) * Theme.u : rightTabs.y + rightTabs.height + 6 * Theme.u) : page.column ? page.height - height - (162 + 12 + 6) * Theme.u : 500 * Theme.u + bar.height - Theme.plate
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

        anchors.left: parent.left
        anchors.leftMargin: page.edge
        y: page.portrait ? (page.column ? page.height - height - Theme.key - 24 * Theme.u : runBox.y + runBox.height + 6 * Theme.u) : page.height - height - (page.tablet.demo ? 6 : 12) * Theme.u
        width: page.portrait ? page.width - 24 * Theme.u : page.width - 2 * Theme.margin - 318 * Theme.u
        height: 162 * Theme.u
        name: qsTr("%1 %2 %3").arg(page.vessel.reason).arg(page.vessel.remedy).arg(page.vessel.who)
        onClicked: page.tablet.openHeld()

        contentItem: VesselCard {
            vessel: page.vessel
        }
    }

    Press {
        id: go

        anchors.right: parent.right
        anchors.rightMargin: page.edge
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
