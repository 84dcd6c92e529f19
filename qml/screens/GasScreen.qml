// What if air were blown in? The way through what burns, and how long it takes. A plan; the test decides.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Page {
    id: page

    readonly property GasPage gas: page.tablet.gas
    readonly property real inner: page.width - 2 * Theme.margin
    readonly property real side: page.portrait ? page.inner : 452 * Theme.u
    readonly property real wide: page.portrait ? page.inner : page.inner - page.side - Theme.margin
    readonly property real sideX: page.portrait ? Theme.margin : page.width - Theme.margin - page.side

    PlateBar {
        id: bar

        tablet: page.tablet
    }

    // Landscape: two rows of three and two; portrait: one row.
    component Top: Press {
        property real column: 0
        property real under: 0

        x: page.sideX + column * Theme.u
        y: bar.height + (10 + under * 94) * Theme.u
        height: Theme.target
        size: 32
        padding: 4 * Theme.u
    }

    Top {
        id: path

        width: (page.portrait ? 104 : 138) * Theme.u
        title: qsTr("Path")
        name: qsTr("The path through the triangle")
        chosen: !page.gas.overTime
        onClicked: page.gas.overTime = false
    }

    Top {
        id: time

        column: page.portrait ? 118 : 157
        width: path.width
        title: qsTr("Time")
        name: qsTr("The gas over time")
        chosen: page.gas.overTime
        onClicked: page.gas.overTime = true
    }

    Top {
        column: page.portrait ? page.side / Theme.u - 122 : 314
        width: (page.portrait ? 122 : 138) * Theme.u
        title: qsTr("Water")
        name: qsTr("Water and pocket, opens it")
        quiet: true
        onClicked: page.tablet.openPart("figures")
    }

    Top {
        column: page.portrait ? 236 : 0
        under: page.portrait ? 0 : 1
        width: (page.portrait ? 92 : 138) * Theme.u
        title: qsTr("Air")
        name: qsTr("Air alone")
        chosen: !page.gas.nitrogenFirst
        onClicked: page.gas.nitrogenFirst = false
    }

    Top {
        column: page.portrait ? 342 : 157
        under: page.portrait ? 0 : 1
        width: page.portrait ? page.side - (342 + 136) * Theme.u : 295 * Theme.u
        title: qsTr("Nitrogen first")
        name: qsTr("Nitrogen first, then air")
        chosen: page.gas.nitrogenFirst
        onClicked: page.gas.nitrogenFirst = true
    }

    GasDrawing {
        id: drawing

        x: Theme.margin
        y: bar.height + (page.portrait ? 102 : 8) * Theme.u
        width: page.wide
        height: said.y - y - 4 * Theme.u
        picture: page.gas.picture
        unit: Theme.u
        theme: Theme.name
        Accessible.role: Accessible.Graphic
        Accessible.name: qsTr("%1, %2 %3").arg(page.gas.verdict).arg(page.gas.because).arg(page.gas.message)
    }

    Column {
        id: said

        x: Theme.margin
        y: (page.portrait ? verdict.y : acts.y) - height - 6 * Theme.u
        width: page.wide
        height: 162 * Theme.u

        Words {
            width: parent.width
            height: 122 * Theme.u
            text: page.gas.message
            size: 30
            maximumLineCount: 3
            elide: Text.ElideRight
        }

        Words {
            width: parent.width
            text: qsTr("A plan. The test decides. Nothing is recorded.")
            size: 30
            bold: true
            maximumLineCount: 1
        }
    }

    Rectangle {
        id: verdict

        x: page.sideX
        y: page.portrait ? acts.y - height - 196 * Theme.u : bar.height + 198 * Theme.u
        width: page.side
        height: (page.portrait ? 112 : 156) * Theme.u
        radius: Theme.corner
        color: Theme.signal(page.gas.colour)
        border.width: Theme.line
        border.color: Theme.colours.ink
        Accessible.role: Accessible.StaticText
        Accessible.name: qsTr("%1: %2. %3").arg(page.gas.word).arg(page.gas.verdict).arg(page.gas.because)

        Words {
            id: word

            x: 16 * Theme.u
            y: 12 * Theme.u
            text: page.gas.word
            bold: true
            size: 34
            color: Theme.onSignal(page.gas.colour)
        }

        Words {
            anchors.left: word.right
            anchors.right: parent.right
            anchors.leftMargin: 12 * Theme.u
            anchors.rightMargin: 16 * Theme.u
            y: 4 * Theme.u
            horizontalAlignment: Text.AlignRight
            text: page.gas.verdict
            bold: true
            size: 48
            wrapMode: Text.NoWrap
            fontSizeMode: Text.HorizontalFit
            minimumPixelSize: Math.round(Theme.least)
            color: Theme.onSignal(page.gas.colour)
        }

        Words {
            x: 16 * Theme.u
            y: 64 * Theme.u
            width: parent.width - 32 * Theme.u
            text: page.gas.because
            size: 30
            maximumLineCount: page.portrait ? 1 : 2
            elide: Text.ElideRight
            color: Theme.onSignal(page.gas.colour)
        }
    }

    Column {
        x: page.sideX
        y: verdict.y + verdict.height + 6 * Theme.u

        Repeater {
            model: page.gas.lines

            Item {
                id: result

                required property string title
                required property string line

                width: page.side
                height: 38 * Theme.u

                Words {
                    text: result.title
                    size: 30
                    color: Theme.colours.ink2
                }

                Words {
                    anchors.right: parent.right
                    text: result.line
                    bold: true
                    size: 30
                }
            }
        }
    }

    Item {
        id: acts

        x: Theme.margin
        y: page.height - height - 10 * Theme.u
        width: page.inner
        height: (page.portrait ? 180 : 120) * Theme.u

        Flow {
            id: inputs

            readonly property list<real> widths: page.portrait ? [126, 152, 162, 126, 170, 144] : [125, 146, 184, 130, 169, 130]

            width: acts.width - keys.width - Theme.gap
            spacing: 12 * Theme.u

            Repeater {
                model: page.gas.inputs

                Press {
                    required property int index
                    required property string key
                    required title
                    required line
                    required chosen

                    width: inputs.widths[index] * Theme.u
                    height: page.portrait ? Theme.target : Theme.key
                    size: 34
                    lines: 1
                    padding: 4 * Theme.u
                    name: qsTr("%1: %2, press to step it").arg(line).arg(title)
                    onClicked: page.gas.choose(key)
                }
            }
        }

        Row {
            id: keys

            anchors.right: parent.right
            spacing: Theme.gap

            Press {
                width: Theme.key
                height: acts.height
                title: "\u2212"
                name: qsTr("%1 less").arg(page.gas.chosen)
                size: 56
                autoRepeat: true
                onClicked: page.gas.step(-1)
            }

            Press {
                width: Theme.key
                height: acts.height
                title: "+"
                name: qsTr("%1 more").arg(page.gas.chosen)
                size: 56
                autoRepeat: true
                onClicked: page.gas.step(1)
            }
        }
    }
}
