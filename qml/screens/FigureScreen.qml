// What if it stood otherwise? A plan; the test decides.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Page {
    id: page

    readonly property FigurePage figure: page.tablet.figure
    readonly property real side: page.portrait ? page.width - 2 * Theme.margin : 372 * Theme.u

    onBlack: page.figure.setToBest()

    PlateBar {
        id: bar

        tablet: page.tablet
    }

    Row {
        id: openings

        x: Theme.margin
        y: bar.height + 12 * Theme.u
        spacing: Theme.gap

        Repeater {
            model: page.figure.openings

            Press {
                required property string key
                required property bool solid
                required title
                required line
                required glyph

                width: page.portrait ? (page.width - 2 * Theme.margin - 4 * Theme.gap) / 5 : 150 * Theme.u
                height: Theme.target
                size: 32
                lines: 1
                padding: 4 * Theme.u
                broken: !solid
                name: qsTr("%1, %2, press to try the other").arg(title).arg(line)
                onClicked: page.figure.toggle(key)
            }
        }
    }

    VesselDrawing {
        id: drawing

        x: Theme.margin
        y: openings.y + Theme.target + 10 * Theme.u
        width: page.portrait ? page.width - 2 * Theme.margin : page.width - page.side - 3 * Theme.margin
        height: (page.portrait ? page.height * 0.26 : acts.y - y - 92 * Theme.u)
        picture: page.figure.picture
        unit: Theme.u
        theme: Theme.name
        Accessible.role: Accessible.Graphic
        Accessible.name: qsTr("Drawing at tilt %1 and roll %2, pocket %3").arg(page.figure.pitch).arg(page.figure.roll).arg(page.figure.pocket)
    }

    Words {
        x: Theme.margin
        y: drawing.y + drawing.height + 4 * Theme.u
        width: drawing.width - gas.width - Theme.gap
        text: page.figure.message !== "" ? page.figure.message : qsTr("A plan. The test decides. Nothing is recorded.")
        size: 30
        color: Theme.colours.ink2
        maximumLineCount: 2
        elide: Text.ElideRight
    }

    Press {
        id: gas

        x: drawing.x + drawing.width - width
        y: drawing.y + drawing.height + 4 * Theme.u
        width: 150 * Theme.u
        height: Theme.target
        title: qsTr("Gas")
        name: qsTr("Gas and air, opens it")
        size: 32
        onClicked: page.tablet.openPart("gas")
    }

    Column {
        x: page.portrait ? Theme.margin : page.width - Theme.margin - page.side
        y: page.portrait ? drawing.y + drawing.height + 92 * Theme.u : bar.height + 12 * Theme.u
        width: page.side
        spacing: 12 * Theme.u

        Rectangle {
            width: parent.width
            height: (page.portrait ? 110 : 160) * Theme.u
            radius: Theme.corner
            color: Theme.colours.gas
            border.width: Theme.line
            border.color: Theme.colours.gasInk

            Words {
                x: 20 * Theme.u
                y: 12 * Theme.u
                text: page.figure.pocketTitle
                bold: true
                size: 32
                color: Theme.colours.gasInk
            }

            Words {
                anchors.right: parent.right
                anchors.rightMargin: 20 * Theme.u
                anchors.bottom: parent.bottom
                anchors.bottomMargin: 8 * Theme.u
                text: page.figure.pocket
                bold: true
                size: page.portrait ? 56 : 72
                color: Theme.colours.gasInk
            }
        }

        Rectangle {
            width: parent.width
            height: (page.portrait ? 106 : 130) * Theme.u
            visible: page.figure.burns !== ""
            radius: Theme.corner
            color: Theme.colours.panel
            border.width: Theme.line
            border.color: Theme.colours.ink

            Words {
                x: 20 * Theme.u
                y: 8 * Theme.u
                text: qsTr("It can burn from")
                size: 32
            }

            Words {
                anchors.right: parent.right
                anchors.rightMargin: 20 * Theme.u
                anchors.bottom: parent.bottom
                anchors.bottomMargin: 4 * Theme.u
                text: page.figure.burns
                bold: true
                size: 62
            }
        }

        Repeater {
            model: page.figure.lines

            Item {
                id: result

                required property string title
                required property string line

                width: parent.width
                height: 42 * Theme.u

                Words {
                    text: result.title
                    size: 32
                    color: Theme.colours.ink2
                }

                Words {
                    anchors.right: parent.right
                    text: result.line
                    bold: true
                    size: 32
                }
            }
        }
    }

    Item {
        id: acts

        x: Theme.margin
        y: page.height - height - 12 * Theme.u
        width: page.width - 2 * Theme.margin
        height: (page.portrait ? 258 : 120) * Theme.u

        component Stepper: Item {
            id: stepper

            property string caption: ""
            property string value: ""
            signal step(int by)

            width: 440 * Theme.u
            height: Theme.key

            Press {
                width: Theme.key
                height: Theme.key
                title: "\u2212"
                name: qsTr("%1 less").arg(stepper.caption)
                size: 56
                autoRepeat: true
                onClicked: stepper.step(-1)
            }

            Words {
                anchors.horizontalCenter: parent.horizontalCenter
                y: 14 * Theme.u
                text: stepper.caption
                size: 32
                color: Theme.colours.ink2
            }

            Words {
                anchors.horizontalCenter: parent.horizontalCenter
                y: 52 * Theme.u
                text: stepper.value
                bold: true
                size: 50
            }

            Press {
                anchors.right: parent.right
                width: Theme.key
                height: Theme.key
                title: "+"
                name: qsTr("%1 more").arg(stepper.caption)
                size: 56
                autoRepeat: true
                onClicked: stepper.step(1)
            }
        }

        Stepper {
            id: tilt

            width: page.portrait ? (acts.width - Theme.gap) / 2 : 430 * Theme.u
            caption: qsTr("Tilt")
            value: page.figure.pitch
            onStep: by => page.figure.tilt(by)
        }

        Stepper {
            x: tilt.width + Theme.gap
            width: tilt.width
            caption: qsTr("Roll")
            value: page.figure.roll
            onStep: by => page.figure.turn(10 * by)
        }

        Press {
            anchors.right: parent.right
            y: page.portrait ? 138 * Theme.u : 0
            width: page.portrait ? acts.width : acts.width - 2 * tilt.width - 2 * Theme.gap
            height: Theme.key
            black: true
            title: qsTr("Set to best")
            line: qsTr("only a what-if")
            size: 40
            onClicked: page.figure.setToBest()
        }
    }
}
