// A live figure: its picture, its inputs, what comes of them. A plan; the test decides.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Page {
    id: page

    readonly property FigurePage figure: page.tablet.figure
    readonly property real inner: page.width - 2 * Theme.margin
    readonly property real side: page.portrait ? page.inner : 452 * Theme.u
    readonly property real wide: page.portrait ? page.inner : page.inner - page.side - Theme.margin
    readonly property real sideX: page.portrait ? Theme.margin : page.width - Theme.margin - page.side
    // Few switches stand under the views, many over the picture.
    readonly property bool manySwitches: page.figure.switches.count > 3
    readonly property bool sideSwitches: page.figure.switches.count > 0 && !page.manySwitches
    // Upright, few of both stand in one row.
    readonly property bool oneRow: page.portrait && !page.manySwitches && !act.visible && views.count + switches.count < 6
    readonly property real switchShare: 1.3 // of a view's key: two words on it
    readonly property real key: (page.inner - (views.count + switches.count - 1) * views.spacing) / (views.count + page.switchShare * switches.count)
    readonly property real row: 94 * Theme.u
    readonly property color onBand: page.figure.colour === "gas" ? Theme.colours.gasInk : Theme.onSignal(page.figure.colour)

    onBlack: page.figure.press()

    PlateBar {
        id: bar

        tablet: page.tablet
        backTo: qsTr("Plans")
    }

    Row {
        id: views

        readonly property int count: page.figure.views.count
        readonly property real room: page.side - (page.portrait && act.visible ? act.width + spacing : 0)

        x: page.sideX
        y: bar.height + 10 * Theme.u
        spacing: 12 * Theme.u

        Repeater {
            model: page.figure.views

            Press {
                required property string key
                required title
                required chosen

                width: page.oneRow ? page.key : (views.room - (views.count - 1) * views.spacing) / views.count
                height: Theme.target
                size: 32
                lines: 1
                padding: 4 * Theme.u
                name: qsTr("Look at: %1").arg(title)
                onClicked: page.figure.look(key)
            }
        }
    }

    Row {
        id: switches

        readonly property int count: page.figure.switches.count
        readonly property real room: page.manySwitches ? page.wide : page.side

        x: page.oneRow ? page.sideX + views.width + spacing : page.manySwitches ? Theme.margin : page.sideX
        y: views.y + (page.oneRow || page.manySwitches && !page.portrait ? 0 : page.row)
        spacing: 12 * Theme.u

        Repeater {
            model: page.figure.switches

            Press {
                required property string key
                required property bool solid
                required title
                required line
                required glyph
                required chosen

                width: page.oneRow ? page.switchShare * page.key : (switches.room - (switches.count - 1) * switches.spacing) / switches.count
                height: Theme.target
                size: 32
                lines: 1
                padding: 4 * Theme.u
                broken: !solid
                onClicked: page.figure.flip(key)
            }
        }
    }

    FigureDrawing {
        id: drawing

        x: Theme.margin
        y: page.portrait ? views.y + (switches.count > 0 && !page.oneRow ? 2 : 1) * page.row : bar.height + (page.manySwitches ? 104 : 8) * Theme.u
        width: page.wide
        height: said.y - y - 4 * Theme.u
        visible: page.figure.view !== "notes"
        picture: page.figure.picture
        unit: Theme.u
        theme: Theme.name
        Accessible.role: Accessible.Graphic
        Accessible.name: qsTr("%1: %2, %3").arg(page.tablet.figureTitle).arg(page.figure.verdict).arg(page.figure.because)

        MouseArea {
            anchors.fill: parent
            onPressed: mouse => page.figure.grasp(mouse.x / width, mouse.y / height)
            onPositionChanged: mouse => page.figure.drag(mouse.x / width, mouse.y / height)
        }
    }

    ListView {
        id: notes

        x: drawing.x
        y: drawing.y
        width: drawing.width
        height: drawing.height
        visible: page.figure.view === "notes"
        clip: true
        spacing: 12 * Theme.u
        boundsBehavior: Flickable.StopAtBounds
        model: page.figure.notes

        delegate: Words {
            required property string modelData

            width: notes.width
            text: modelData
            size: 30
        }
    }

    Column {
        id: said

        x: Theme.margin
        y: (page.portrait ? verdict.y : acts.y) - height - 6 * Theme.u
        width: page.wide
        height: (page.portrait ? 122 : 162) * Theme.u

        Words {
            width: parent.width
            height: (page.portrait ? 82 : 122) * Theme.u
            text: page.figure.view === "notes" ? "" : page.figure.message
            whole: false
            size: 30
            maximumLineCount: page.portrait ? 2 : 3
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
        y: page.portrait ? acts.y - height - (12 + 38 * page.figure.lines.count) * Theme.u : views.y + (page.sideSwitches ? 2 : 1) * page.row
        width: page.side
        height: page.figure.colour === "" ? 0 : (page.portrait ? 112 : 156) * Theme.u
        visible: height > 0
        radius: Theme.corner
        color: page.figure.colour === "gas" ? Theme.colours.gas : Theme.signal(page.figure.colour)
        border.width: Theme.line
        border.color: Theme.colours.ink
        Accessible.role: Accessible.StaticText
        Accessible.name: qsTr("%1: %2. %3").arg(page.figure.word).arg(page.figure.verdict).arg(page.figure.because)

        Words {
            id: word

            x: 16 * Theme.u
            y: 12 * Theme.u
            text: page.figure.word
            bold: true
            size: 34
            color: page.onBand
        }

        Words {
            anchors.left: word.right
            anchors.right: parent.right
            anchors.leftMargin: 12 * Theme.u
            anchors.rightMargin: 16 * Theme.u
            y: 4 * Theme.u
            horizontalAlignment: Text.AlignRight
            text: page.figure.verdict
            bold: true
            size: 48
            wrapMode: Text.NoWrap
            fontSizeMode: Text.HorizontalFit
            minimumPixelSize: Math.round(Theme.least)
            color: page.onBand
        }

        Words {
            x: 16 * Theme.u
            y: 64 * Theme.u
            width: parent.width - 32 * Theme.u
            text: page.figure.because
            size: 30
            maximumLineCount: page.portrait ? 1 : 2
            elide: Text.ElideRight
            color: page.onBand
        }
    }

    Column {
        id: lines

        x: page.sideX
        y: verdict.y + (verdict.height > 0 ? verdict.height + 6 * Theme.u : 0)

        Repeater {
            model: page.figure.lines

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

    Press {
        id: act

        anchors.right: parent.right
        anchors.rightMargin: Theme.margin
        y: page.portrait ? views.y : acts.y - height - 12 * Theme.u
        width: page.portrait ? 260 * Theme.u : page.side
        height: Theme.target
        visible: page.figure.act !== ""
        black: true
        lines: 1
        title: page.figure.act
        size: 34
        onClicked: page.figure.press()
    }

    Item {
        id: acts

        x: Theme.margin
        y: page.height - height - 10 * Theme.u
        width: page.inner
        height: inputs.rows > 1 ? 180 * Theme.u : Theme.key

        Flow {
            id: inputs

            readonly property int rows: page.portrait && page.figure.letters.length > 3 ? 2 : 1
            readonly property int perRow: Math.ceil(page.figure.letters.length / rows)

            // A key is as wide as its longest value among those of its row.
            function widthOf(index: int): real {
                const first = Math.floor(index / perRow) * perRow;
                const last = Math.min(first + perRow, page.figure.letters.length);
                let all = 0;
                for (let i = first; i < last; ++i) {
                    all += page.figure.letters[i];
                }
                return (width - 1 - (last - first - 1) * spacing) * page.figure.letters[index] / all;
            }

            width: acts.width - keys.width - Theme.gap
            spacing: 12 * Theme.u

            Repeater {
                model: page.figure.inputs

                Press {
                    required property int index
                    required property string key
                    required title
                    required line
                    required chosen

                    width: inputs.widthOf(index)
                    height: inputs.rows > 1 ? Theme.target : Theme.key
                    size: 34
                    lines: 1
                    padding: 4 * Theme.u
                    name: qsTr("%1: %2, press to step it").arg(line).arg(title)
                    onClicked: page.figure.choose(key)
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
                name: qsTr("%1 less").arg(page.figure.chosen)
                size: 56
                autoRepeat: true
                onClicked: page.figure.step(-1)
            }

            Press {
                width: Theme.key
                height: acts.height
                title: "+"
                name: qsTr("%1 more").arg(page.figure.chosen)
                size: 56
                autoRepeat: true
                onClicked: page.figure.step(1)
            }
        }
    }
}
