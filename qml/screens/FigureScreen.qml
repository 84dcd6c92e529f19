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
    // Words too long for their keys, or larger letters: what is said and the tabs stand in one column that pages.
    property bool cut: false
    property bool lineTooLong: false

    said: "%1. %2".arg(page.tablet.figureTitle).arg(page.figure.verdict)
    onLineTooLongChanged: settled.restart()

    Timer {
        id: settled

        interval: 1
        onTriggered: page.cut = page.cut || page.lineTooLong || plan.truncated || verdictWord.truncated || because.truncated
    }

    readonly property bool column: cut || Theme.text > 1
    // Few switches stand under the views, many over the picture.
    readonly property bool manySwitches: page.figure.switches.count > 3
    readonly property bool sideSwitches: page.figure.switches.count > 0 && !page.manySwitches
    // Upright, few of both stand in one row.
    readonly property bool oneRow: page.portrait && !page.column && !page.manySwitches && !act.visible && views.count + switches.count < 6
    readonly property real switchShare: 1.3 // of a view's key: two words on it
    readonly property real key: (page.inner - (views.count + switches.count - 1) * views.spacing) / (views.count + page.switchShare * switches.count)
    readonly property real row: 94 * Theme.u
    readonly property color band: page.figure.colour === "gas" ? Theme.colours.gas : Theme.signal(page.figure.colour)
    readonly property string saying: qsTr("%1: %2. %3").arg(page.figure.word).arg(page.figure.verdict).arg(page.figure.because)
    readonly property color bandInk: page.figure.colour === "gas" ? Theme.colours.gasInk : Theme.onSignal(page.figure.colour)

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

        anchors.left: parent.left
        anchors.leftMargin: page.sideX
        visible: !page.column
        y: bar.height + 10 * Theme.u
        spacing: 12 * Theme.u

        Repeater {
            model: page.figure.views

            Press {
                onCutChanged: page.cut = page.cut || cut
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

        anchors.left: parent.left
        anchors.leftMargin: page.oneRow ? page.sideX + views.width + spacing : page.manySwitches ? Theme.margin : page.sideX
        visible: !page.column
        y: views.y + (page.oneRow || page.manySwitches && !page.portrait ? 0 : page.row)
        spacing: 12 * Theme.u

        Repeater {
            model: page.figure.switches

            Press {
                onCutChanged: page.cut = page.cut || cut
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

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        y: page.column ? bar.height + 8 * Theme.u : page.portrait ? views.y + (switches.count > 0 && !page.oneRow ? 2 : 1) * page.row : bar.height + (page.manySwitches ? 104 : 8) * Theme.u
        width: page.wide
        height: said.y - y - 4 * Theme.u
        visible: page.figure.view !== "notes"
        picture: page.figure.picture
        unit: height > 460 * Theme.u ? Theme.drawn : Theme.u // a low picture has no room for larger words
        theme: Theme.name
        Accessible.role: Accessible.Graphic
        Accessible.name: qsTr("%1: %2, %3").arg(page.tablet.figureTitle).arg(page.figure.verdict).arg(page.figure.because)

        MouseArea {
            anchors.fill: parent
            onPressed: mouse => page.figure.grasp(mouse.x / width, mouse.y / height)
            onPositionChanged: mouse => page.figure.drag(mouse.x / width, mouse.y / height)
        }
    }

    Pager {
        id: notes

        anchors.left: drawing.left
        y: drawing.y
        width: drawing.width
        height: drawing.height
        visible: page.figure.view === "notes"
        spacing: 12 * Theme.u
        dragged: true
        what: qsTr("notes")

        Repeater {
            model: page.figure.notes

            Words {
                required property string modelData

                width: notes.room
                text: modelData
                size: 30
            }
        }
    }

    Column {
        id: said

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        y: (page.portrait ? (page.column ? told.y : verdict.y) : acts.y) - height - 6 * Theme.u
        width: page.wide
        height: (page.column ? (Theme.large ? 170 : 162) : page.portrait ? 122 : 162) * Theme.u

        Words {
            width: parent.width
            height: (page.portrait ? 82 : 122) * Theme.u
            visible: !page.column
            text: page.figure.view === "notes" ? "" : page.figure.message
            whole: false
            size: 30
            maximumLineCount: page.portrait ? 2 : 3
            elide: Text.ElideRight
        }

        Words {
            id: plan

            width: parent.width
            visible: !page.column
            text: qsTr("A plan. The test decides. Nothing is recorded.")
            size: 30
            bold: true
            maximumLineCount: 1
            elide: Text.ElideRight
            onTruncatedChanged: settled.restart()
        }

        Pager {
            id: aside

            width: parent.width
            height: Math.min(implicitHeight, said.height)
            visible: page.column
            what: qsTr("what to know")

            Words {
                width: aside.room
                text: qsTr("A plan. The test decides. Nothing is recorded.")
                size: 30
                cap: 40
                bold: true
            }

            Words {
                width: aside.room
                visible: page.figure.view !== "notes"
                text: page.figure.message
                size: 30
            }
        }
    }

    Rectangle {
        id: verdict

        anchors.left: parent.left
        anchors.leftMargin: page.sideX
        y: page.portrait ? acts.y - height - (12 + 38 * page.figure.lines.count) * Theme.u : views.y + (page.sideSwitches ? 2 : 1) * page.row
        width: page.side
        height: page.figure.colour === "" ? 0 : (page.portrait ? 112 : 156) * Theme.u
        visible: height > 0 && !page.column
        radius: Theme.corner
        color: page.band
        border.width: Theme.line
        border.color: Theme.colours.ink
        Accessible.role: Accessible.StaticText
        Accessible.name: page.saying

        Words {
            id: word

            anchors.left: parent.left
            anchors.leftMargin: 16 * Theme.u
            y: 12 * Theme.u
            text: page.figure.word
            bold: true
            size: 34
            color: page.bandInk
        }

        Words {
            id: verdictWord

            anchors.left: word.right
            anchors.right: parent.right
            anchors.leftMargin: 12 * Theme.u
            anchors.rightMargin: 16 * Theme.u
            y: 4 * Theme.u
            horizontalAlignment: Text.AlignRight
            text: page.figure.verdict
            bold: true
            size: 48
            elide: Text.ElideRight
            wrapMode: Text.NoWrap
            fontSizeMode: Text.HorizontalFit
            minimumPixelSize: Math.round(Theme.least)
            color: page.bandInk
            onTruncatedChanged: settled.restart()
        }

        Words {
            id: because

            anchors.left: parent.left
            anchors.leftMargin: 16 * Theme.u
            y: 64 * Theme.u
            width: parent.width - 32 * Theme.u
            text: page.figure.because
            size: 30
            maximumLineCount: page.portrait ? 1 : 2
            elide: Text.ElideRight
            color: page.bandInk
            onTruncatedChanged: settled.restart()
        }
    }

    Column {
        id: lines

        anchors.left: parent.left
        anchors.leftMargin: page.sideX
        visible: !page.column
        y: verdict.y + (verdict.height > 0 ? verdict.height + 6 * Theme.u : 0)

        Repeater {
            model: page.figure.lines

            Item {
                id: result

                required property string title
                required property string line
                readonly property bool tooLong: named.implicitWidth + valued.implicitWidth > page.side - 6 * Theme.u

                width: page.side
                height: 38 * Theme.u
                onTooLongChanged: page.lineTooLong = page.lineTooLong || tooLong

                Words {
                    id: named

                    anchors.left: parent.left
                    text: result.title
                    size: 30
                    color: Theme.colours.ink2
                }

                Words {
                    id: valued

                    anchors.right: parent.right
                    text: result.line
                    bold: true
                    size: 30
                }
            }
        }
    }

    // All of the side in one column: what came out, its numbers, the tabs, the switches.
    Pager {
        id: told

        readonly property real end: (act.visible ? act.y : acts.y) - 12 * Theme.u

        visible: page.column
        anchors.left: parent.left
        anchors.leftMargin: page.sideX
        y: page.portrait ? end - 280 * Theme.u : bar.height + 10 * Theme.u
        width: page.side
        height: end - y
        spacing: 12 * Theme.u
        what: qsTr("what came out")

        Rectangle {
            width: told.room
            height: banded.height + 24 * Theme.u
            visible: page.figure.colour !== ""
            radius: Theme.corner
            color: page.band
            border.width: Theme.line
            border.color: Theme.colours.ink
            Accessible.role: Accessible.StaticText
            Accessible.name: page.saying

            Column {
                id: banded

                anchors.centerIn: parent
                width: parent.width - 32 * Theme.u

                Words {
                    width: parent.width
                    text: page.figure.word
                    bold: true
                    size: 34
                    cap: 48
                    color: page.bandInk
                }

                Words {
                    width: parent.width
                    text: page.figure.verdict
                    bold: true
                    size: 40
                    color: page.bandInk
                }

                Words {
                    width: parent.width
                    text: page.figure.because
                    size: 30
                    color: page.bandInk
                }
            }
        }

        Repeater {
            model: page.column ? page.figure.lines : null

            Column {
                id: stacked

                required property string title
                required property string line

                width: told.room

                Words {
                    width: parent.width
                    text: stacked.title
                    size: 30
                    color: Theme.colours.ink2
                }

                Words {
                    width: parent.width
                    text: stacked.line
                    bold: true
                    size: 30
                }
            }
        }

        Repeater {
            model: page.column ? page.figure.views : null

            Press {
                required property string key
                required title
                required chosen

                width: told.room
                height: Theme.target
                size: 32
                name: qsTr("Look at: %1").arg(title)
                onClicked: page.figure.look(key)
            }
        }

        Repeater {
            model: page.column ? page.figure.switches : null

            Press {
                required property string key
                required property bool solid
                required title
                required line
                required glyph
                required chosen

                width: told.room
                height: Math.max(Theme.target, implicitContentHeight + topPadding + bottomPadding)
                size: 32
                grows: true
                broken: !solid
                onClicked: page.figure.flip(key)
            }
        }
    }

    Press {
        id: act

        anchors.right: parent.right
        anchors.rightMargin: Theme.margin
        y: page.portrait && !page.column ? views.y : acts.y - height - 12 * Theme.u
        width: page.portrait && !page.column ? 260 * Theme.u : page.side
        height: Theme.target
        visible: page.figure.act !== ""
        black: true
        lines: 1
        title: page.figure.act
        size: 34
        onClicked: page.figure.press()
        onCutChanged: page.cut = page.cut || cut
    }

    Item {
        id: acts

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        y: page.height - height - 10 * Theme.u
        width: page.inner
        height: inputs.rows < 2 ? Theme.key : page.column ? 2 * Theme.key + 12 * Theme.u : 180 * Theme.u

        Flow {
            id: inputs

            readonly property int count: page.figure.letters.length
            // Large letters: some at a time, a key turns to the next.
            readonly property int some: !page.column ? count : page.portrait ? 4 : 3
            property int first: 0
            readonly property int shown: Math.min(some, count - first)
            readonly property int rows: page.portrait && shown > (page.column ? 2 : 3) ? 2 : 1
            readonly property int perRow: Math.ceil(shown / rows)

            // A key is as wide as its longest value among those of its row.
            function widthOf(index: int): real {
                const start = first + Math.floor((index - first) / perRow) * perRow;
                const last = Math.min(start + perRow, first + shown);
                let all = 0;
                for (let i = start; i < last; ++i) {
                    all += page.figure.letters[i];
                }
                return (width - 1 - (last - start - 1) * spacing) * page.figure.letters[index] / all;
            }

            anchors.left: parent.left
            width: acts.width - keys.width - Theme.gap - (turn.visible ? turn.width + 12 * Theme.u : 0)
            spacing: 12 * Theme.u
            onCountChanged: first = 0
            onSomeChanged: first = 0

            Repeater {
                model: page.figure.inputs

                Press {
                    required property int index
                    required property string key
                    required title
                    required line
                    required chosen

                    visible: index >= inputs.first && index < inputs.first + inputs.shown
                    width: visible ? inputs.widthOf(index) : 0
                    height: inputs.rows > 1 && !page.column ? Theme.target : Theme.key
                    size: 34
                    lines: page.column ? 2 : 1
                    padding: 4 * Theme.u
                    name: qsTr("%1: %2, press to step it").arg(line).arg(title)
                    onClicked: page.figure.choose(key)
                    onCutChanged: page.cut = page.cut || cut && visible
                }
            }
        }

        Press {
            id: turn

            anchors.left: inputs.right
            anchors.leftMargin: 12 * Theme.u
            width: Theme.target
            height: Theme.key
            visible: inputs.count > inputs.some
            quiet: true
            glyph: inputs.first + inputs.shown < inputs.count ? "more" : "first"
            name: qsTr("More: %1").arg(qsTr("numbers"))
            onClicked: inputs.first = inputs.first + inputs.shown < inputs.count ? inputs.first + inputs.some : 0
        }

        Item {
            id: keys

            anchors.right: parent.right
            width: 2 * Theme.key + Theme.gap

            // Less stands before more, as on a scale, from whichever side one reads.
            Press {
                x: 0
                width: Theme.key
                height: acts.height
                title: "\u2212"
                name: qsTr("%1 less").arg(page.figure.chosen)
                size: 56
                autoRepeat: true
                onClicked: page.figure.step(-1)
            }

            Press {
                x: Theme.key + Theme.gap
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
