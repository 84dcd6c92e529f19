// A sheet: the ask, the picture that moves with what is typed, Cannot and Take, and the hand that answers.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Page {
    id: page

    readonly property Sheet sheet: page.tablet.sheet
    readonly property bool number: sheet.hand === Sheet.Kind.Number
    readonly property bool pin: sheet.hand === Sheet.Kind.Pin
    readonly property real handWidth: page.portrait ? page.width - 2 * Theme.margin : Theme.hand
    readonly property real handTop: page.portrait ? (keys.visible ? head.y + head.height + 16 * Theme.u : acts.y - 690 * Theme.u) : bar.height + 12 * Theme.u
    readonly property real leftWidth: page.portrait ? page.width - 2 * Theme.margin : page.width - Theme.hand - 2 * Theme.margin - 24 * Theme.u

    property bool wantsKeys: false // phrases first; the keys come when asked for
    readonly property bool writes: sheet.hand === Sheet.Kind.Write || sheet.hand === Sheet.Kind.File

    function press(text: string) {
        if (page.pin) {
            page.sheet.pinPress(text);
        } else if (page.number) {
            page.sheet.pad.press(text);
        }
    }

    onTyped: text => page.press(text)
    onErased: page.pin ? page.sheet.pinErase() : page.sheet.pad.erase()
    onNextUnit: page.sheet.pad.nextUnit()
    onRefused: page.sheet.refuse()
    onBlack: {
        if (page.sheet.holdToTake) {
            holdTake.byKey = true;
        } else {
            page.sheet.take();
        }
    }
    onBlackUp: holdTake.byKey = false

    PlateBar {
        id: bar

        tablet: page.tablet
        visible: page.tablet.hasVessel
        backTo: qsTr("Vessel")
    }

    Item {
        visible: !page.tablet.hasVessel
        width: parent.width
        height: Theme.plate

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

        Press {
            x: 6 * Theme.u
            y: 6 * Theme.u
            width: 200 * Theme.u
            height: Theme.target
            glyph: "back"
            title: qsTr("Back")
            name: qsTr("Leave this sheet")
            leftAligned: true
            onClicked: page.sheet.back()
        }

        Words {
            anchors.left: parent.left
            anchors.leftMargin: 240 * Theme.u
            anchors.verticalCenter: parent.verticalCenter
            text: page.sheet.kicker
            bold: true
            size: 36
        }
    }

    Column {
        id: head

        x: Theme.margin
        y: bar.height + 10 * Theme.u
        width: page.leftWidth
        spacing: 2 * Theme.u

        Accessible.role: Accessible.StaticText
        Accessible.name: qsTr("%1 %2").arg(page.sheet.ask).arg(page.sheet.why)

        Words {
            width: parent.width
            visible: page.tablet.hasVessel
            text: page.sheet.draftNote !== "" ? page.sheet.draftNote : page.sheet.kicker
            size: 30
            color: Theme.colours.ink2
            maximumLineCount: 1
            elide: Text.ElideRight
        }

        Words {
            width: parent.width
            text: page.sheet.ask
            bold: true
            size: page.sheet.ask.length > 56 ? 36 : 44
            maximumLineCount: 3
            elide: Text.ElideRight
        }

        Words {
            width: parent.width
            visible: text !== "" && page.sheet.places.count === 0 && !keys.visible && !(page.portrait && (page.number || page.pin))
            text: page.sheet.why
            size: 30
            color: Theme.colours.ink2
            maximumLineCount: 2
            elide: Text.ElideRight
        }
    }

    // ---- the picture, or what was answered
    VesselDrawing {
        id: picture

        readonly property bool room: head.y + head.height + 150 * Theme.u < bottomLeft.y

        visible: !keys.visible && !page.sheet.gate && !page.pin && page.sheet.hand !== Sheet.Kind.People && page.sheet.hand !== Sheet.Kind.Told && page.tablet.hasVessel && room
        x: Theme.margin
        y: head.y + head.height + 10 * Theme.u
        width: page.leftWidth
        height: Math.max(10, (page.portrait ? Math.min(bottomLeft.y, page.handTop) : bottomLeft.y) - y - 10 * Theme.u)
        picture: page.sheet.picture
        labels: page.sheet.places.count === 0
        unit: Theme.u * (page.sheet.places.count === 0 ? 1 : 0.7)
        theme: Theme.name
    }

    BlindDrawing {
        visible: !keys.visible && page.sheet.gate && page.sheet.hand !== Sheet.Kind.People && !page.pin && page.sheet.hand !== Sheet.Kind.Told
        x: Theme.margin
        y: head.y + head.height + 8 * Theme.u
        width: page.leftWidth
        height: Math.max(10, (page.portrait ? page.handTop : acts.y) - y - 12 * Theme.u)
        picture: page.sheet.picture
        blind: page.sheet.blind
        unit: Theme.u
        theme: Theme.name
    }

    Column {
        visible: !keys.visible && page.sheet.gate && page.sheet.hand !== Sheet.Kind.People && !page.pin && !page.portrait
        x: Theme.margin
        y: head.y + head.height + 16 * Theme.u
        width: 170 * Theme.u

        Repeater {
            model: page.sheet.answered

            Words {
                required property string line
                required property string note

                width: 170 * Theme.u
                text: qsTr("%1 %2").arg(note).arg(line)
                size: 30
                maximumLineCount: 1
                elide: Text.ElideRight
            }
        }
    }

    ListView {
        id: terms

        visible: page.pin || page.sheet.hand === Sheet.Kind.People
        x: Theme.margin
        y: head.y + head.height + 14 * Theme.u
        width: page.leftWidth
        height: Math.max(10, (page.portrait ? page.handTop : bottomLeft.y) - y - 12 * Theme.u)
        clip: true
        model: page.sheet.answered
        boundsBehavior: Flickable.StopAtBounds

        delegate: Item {
            id: term

            required property string title
            required property string line

            width: terms.width
            height: Math.max(asked.height, said.height) + 10 * Theme.u

            Words {
                id: asked

                width: term.width * 0.56
                text: term.title
                size: 30
                color: Theme.colours.ink2
                maximumLineCount: 2
                elide: Text.ElideRight
            }

            Words {
                id: said

                x: term.width * 0.58
                width: term.width * 0.42
                text: term.line
                bold: true
                size: 30
                maximumLineCount: 2
                elide: Text.ElideRight
            }
        }
    }

    // ---- places of a round, and the need
    Column {
        id: bottomLeft

        x: Theme.margin
        anchors.bottom: page.portrait ? undefined : acts.top
        anchors.bottomMargin: 14 * Theme.u
        y: page.portrait ? page.handTop - height - 10 * Theme.u : 0
        width: page.leftWidth
        spacing: 8 * Theme.u

        Row {
            visible: page.sheet.places.count > 0 && (page.number || page.sheet.hand === Sheet.Kind.Choice)
            spacing: 12 * Theme.u

            Repeater {
                model: page.sheet.places

                Item {
                    id: placeBox

                    required property string title
                    required property string line
                    required property string note
                    required property bool solid
                    required property bool chosen

                    width: (page.leftWidth - 12 * Theme.u * (page.sheet.places.count - 1)) / Math.max(1, page.sheet.places.count)
                    height: 92 * Theme.u

                    Box {
                        anchors.fill: parent
                        unit: Theme.u
                        fill: Theme.colours.panel
                        ink: Theme.colours.ink
                        line: (placeBox.chosen ? 8 : 3) * Theme.u
                        broken: !placeBox.solid && !placeBox.chosen
                        corner: 6 * Theme.u
                    }

                    Words {
                        x: 12 * Theme.u
                        y: 6 * Theme.u
                        text: placeBox.title
                        bold: true
                        size: 30
                    }

                    Words {
                        anchors.right: parent.right
                        anchors.rightMargin: 12 * Theme.u
                        y: 6 * Theme.u
                        text: placeBox.line
                        size: 30
                    }

                    Glyph {
                        x: 8 * Theme.u
                        y: 50 * Theme.u
                        width: 32 * Theme.u
                        height: 32 * Theme.u
                        name: placeBox.solid ? "fresh" : "missing"
                        ink: Theme.colours.ink
                        theme: Theme.name
                    }

                    Words {
                        anchors.right: parent.right
                        anchors.rightMargin: 12 * Theme.u
                        y: 46 * Theme.u
                        text: placeBox.note
                        bold: placeBox.solid
                        size: 30
                    }
                }
            }
        }

        Words {
            width: parent.width
            visible: page.sheet.need !== "" && page.sheet.message === ""
            text: page.sheet.need
            bold: true
            size: 32
        }

        Words {
            width: parent.width
            visible: page.sheet.message !== "" && page.sheet.hand !== Sheet.Kind.Told && !keys.visible
            text: page.sheet.message
            bold: true
            size: 32
            maximumLineCount: 3
            Accessible.ignored: false
            Accessible.role: Accessible.AlertMessage
            Accessible.name: text
        }
    }

    Words {
        visible: page.sheet.hand === Sheet.Kind.Told
        x: Theme.margin
        y: head.y + head.height + 24 * Theme.u
        width: page.width - 2 * Theme.margin
        text: page.sheet.message
        size: 40
        bold: true
        Accessible.ignored: false
        Accessible.role: Accessible.AlertMessage
        Accessible.name: text
    }

    // ---- the acts
    Item {
        id: acts

        x: Theme.margin
        y: (keys.visible ? keys.y : page.height) - height - 18 * Theme.u
        width: page.leftWidth
        height: Theme.key

        Press {
            id: refuse

            width: 206 * Theme.u
            height: parent.height
            quiet: true
            title: page.sheet.cannotLabel
            size: 34
            onClicked: page.sheet.refuse()
        }

        Press {
            visible: !page.sheet.holdToTake
            anchors.left: refuse.right
            anchors.leftMargin: Theme.gap
            anchors.right: parent.right
            height: parent.height
            black: true
            enabled: page.sheet.canTake
            title: page.sheet.takeLabel
            size: 42
            onClicked: page.sheet.take()
        }

        HoldPress {
            id: holdTake

            visible: page.sheet.holdToTake
            anchors.left: refuse.right
            anchors.leftMargin: Theme.gap
            anchors.right: parent.right
            height: parent.height
            enabled: page.sheet.canTake
            title: page.sheet.takeLabel
            size: 42
            onGiven: page.sheet.take()
        }
    }

    // ---- the hand
    Item {
        id: hand

        x: page.portrait ? Theme.margin : page.width - Theme.margin - width
        y: page.handTop
        width: page.handWidth
        height: (page.portrait ? acts.y - Theme.gap : (keys.visible ? keys.y : page.height) - 18 * Theme.u) - y

        NumberField {
            visible: page.number && page.sheet.fields.count === 0
            width: parent.width
            height: Theme.key
            caption: page.sheet.pad.caption
            value: page.sheet.pad.shown
            unit: page.sheet.pad.unit
            echo: page.sheet.pad.echo
            outside: page.sheet.outside
        }

        Row {
            visible: page.number && page.sheet.fields.count > 0
            spacing: Theme.gap

            Repeater {
                model: page.sheet.fields

                Press {
                    id: one

                    required property string key
                    required property string note
                    required title
                    required line
                    required chosen

                    width: (hand.width - Theme.gap) / 2
                    height: Theme.key
                    name: qsTr("%1: %2 %3").arg(title).arg(line).arg(note)
                    onClicked: page.sheet.pickField(key)
                    contentItem: Item {}

                    NumberField {
                        anchors.fill: parent
                        Accessible.ignored: true
                        caption: one.title
                        value: one.line
                        unit: one.note
                        active: one.chosen
                        outside: one.chosen && page.sheet.outside
                    }
                }
            }
        }

        PinField {
            visible: page.pin
            width: parent.width
            height: Theme.key
            caption: page.sheet.pinCaption
            dots: page.sheet.dots
        }

        NumberPad {
            visible: page.number || page.pin
            y: Theme.key + Theme.gap
            width: parent.width
            height: parent.height - y
            pin: page.pin
            point: page.sheet.pad.point
            freeKey: page.sheet.pad.free
            units: page.sheet.pad.units
            onDigit: text => page.press(text)
            onErased: page.pin ? page.sheet.pinErase() : page.sheet.pad.erase()
            onUnitPicked: key => page.sheet.pad.pickUnit(key)
        }

        RowsView {
            visible: page.sheet.hand === Sheet.Kind.Choice
            anchors.fill: parent
            rowHeight: Math.min(150 * Theme.u, Math.max(Theme.target, (height - 12 * Theme.u * (count - 1)) / Math.max(1, count)))
            model: page.sheet.options
            onPicked: key => page.sheet.choose(key)
        }

        Column {
            visible: page.sheet.hand === Sheet.Kind.Write || page.sheet.hand === Sheet.Kind.File
            width: parent.width
            spacing: Theme.gap

            WriteField {
                id: writing

                width: parent.width
                name: page.sheet.ask
                text: page.sheet.written
                placeholderText: page.sheet.hand === Sheet.Kind.File ? qsTr("path of a picture") : ""
                onTextEdited: page.sheet.hand === Sheet.Kind.File ? page.sheet.pickFile(text) : page.sheet.written = text
            }

            Words {
                visible: keys.visible && page.sheet.message !== ""
                width: parent.width
                text: page.sheet.message
                bold: true
                size: 32
                maximumLineCount: 3
                Accessible.ignored: false
                Accessible.role: Accessible.AlertMessage
                Accessible.name: text
            }

            Words {
                visible: page.sheet.hand === Sheet.Kind.File
                width: parent.width
                text: qsTr("No camera here: a picture from a file counts as that, and is marked so.")
                size: 30
                color: Theme.colours.ink2
            }

            Press {
                visible: page.sheet.hand === Sheet.Kind.Write && page.sheet.phrases && !keys.visible
                width: hand.width
                height: Theme.target
                title: qsTr("Write")
                name: qsTr("Write with keys")
                size: 34
                onClicked: page.wantsKeys = true
            }

            Repeater {
                model: page.sheet.hand === Sheet.Kind.Write && !keys.visible ? page.sheet.options : null

                Press {
                    required property string key
                    required title

                    width: hand.width
                    height: Theme.target
                    size: 34
                    lines: 1
                    onClicked: page.sheet.choose(key)
                }
            }
        }

        Flickable {
            visible: page.sheet.hand === Sheet.Kind.People
            anchors.fill: parent
            contentHeight: signers.height
            clip: true
            boundsBehavior: Flickable.StopAtBounds

            Column {
                id: signers

                width: parent.width
                spacing: 12 * Theme.u

                Grid {
                    columns: 2
                    spacing: Theme.gap

                    Repeater {
                        model: page.sheet.people

                        Press {
                            required property string key
                            required title
                            required line

                            width: (hand.width - Theme.gap) / 2
                            height: Theme.key
                            size: 42
                            onClicked: page.sheet.pickPerson(key)
                        }
                    }
                }

                Words {
                    visible: page.sheet.people.count === 0
                    width: parent.width
                    text: qsTr("Nobody on this tablet may sign this.")
                    bold: true
                    size: 36
                }

                Repeater {
                    model: page.sheet.others

                    Words {
                        required property string line

                        width: signers.width
                        text: line
                        size: 30
                        color: Theme.colours.ink2
                        maximumLineCount: 2
                        elide: Text.ElideRight
                    }
                }
            }
        }
    }

    Keyboard {
        id: keys

        visible: page.writes && (page.wantsKeys || !page.sheet.phrases)
        x: Theme.margin
        y: page.height - height - 12 * Theme.u
        width: page.width - 2 * Theme.margin
        onTyped: text => page.sheet.type(text)
        onErased: page.sheet.eraseLetter()
    }

    Connections {
        target: page.sheet

        function onChanged() {
            if (!page.writes) {
                page.wantsKeys = false;
            }
            if (page.sheet.hand === Sheet.Kind.Write || page.sheet.hand === Sheet.Kind.File) {
                if (!writing.activeFocus && writing.text === "") {
                    writing.forceActiveFocus();
                }
            } else if (writing.activeFocus) {
                page.forceActiveFocus();
            }
        }
    }

    Component.onCompleted: if (page.sheet.hand === Sheet.Kind.Write) {
        writing.forceActiveFocus();
    }
}
