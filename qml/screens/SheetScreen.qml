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
    readonly property real handTop: page.portrait ? (keys.visible ? head.y + head.height + 16 * Theme.u : acts.y - page.handHigh * Theme.u) : bar.height + 12 * Theme.u
    // Upright, in logical pixels: a few answers leave room for the ask.
    readonly property real handHigh: page.folds ? 664 : page.sheet.hand === Sheet.Kind.Choice && !Theme.large ? Math.min(690, page.sheet.options.count * 162 + 18) : 690
    readonly property real askSize: page.sheet.ask.length > 56 ? 36 : 44
    readonly property real leftEnd: page.portrait ? Math.min(bottomLeft.y, page.handTop) : bottomLeft.y
    readonly property string kicker: page.sheet.draftNote !== "" ? page.sheet.draftNote : page.sheet.kicker
    // Upright with large letters there is no room between the ask and the hand: need and message page with the ask.
    readonly property bool folds: page.portrait && Theme.large
    readonly property bool needs: page.sheet.need !== "" && page.sheet.message === ""
    readonly property bool tells: page.sheet.message !== "" && page.sheet.hand !== Sheet.Kind.Told && !keys.visible
    readonly property bool pictured: !keys.visible && !page.sheet.gate && !page.pin && page.sheet.hand !== Sheet.Kind.People && page.sheet.hand !== Sheet.Kind.Told && page.tablet.hasVessel
    readonly property bool blind: !keys.visible && !(page.portrait && page.reads) && page.sheet.gate && page.sheet.hand !== Sheet.Kind.People && !page.pin && page.sheet.hand !== Sheet.Kind.Told
    // A picture that folds: whole, low, a strip; while a number is typed it never goes.
    readonly property real pictureLeast: terms.visible ? Math.min(110 * Theme.u, terms.implicitHeight) : !page.pictured && !page.blind ? 0 : (page.blind ? (page.portrait ? 120 : 240) : page.number ? (page.portrait ? (Theme.text > 1 ? 76 : 0) : Theme.large ? 150 : 130) : 0) * Theme.u
    readonly property real leftWidth: page.portrait ? page.width - 2 * Theme.margin : page.width - Theme.hand - 2 * Theme.margin - 24 * Theme.u

    property bool wantsKeys: false // phrases first; the keys come when asked for
    readonly property bool writes: sheet.hand === Sheet.Kind.Write && !reads
    readonly property bool reads: sheet.asksTag && sheet.byCamera // by the camera

    said: "%1. %2 %3".arg(page.kicker).arg(page.sheet.ask).arg(page.sheet.why)
    // Each ask is read out, and Enter is its black button again.
    onSaidChanged: if (!keys.visible) {
        page.hear();
    }

    onTyped: text => (numbers.item as NumberHand)?.press(text)
    onErased: (numbers.item as NumberHand)?.erase()
    onNextUnit: page.sheet.pad.nextUnit()
    onRefused: page.sheet.refuse()
    onBlack: {
        if (page.sheet.holdToTake) {
            page.holds(true);
        } else {
            page.sheet.take();
        }
    }
    onBlackUp: page.holds(false)

    function holds(down: bool) {
        const key = hold.item as HoldPress;
        if (key !== null) {
            key.byKey = down;
        }
    }

    PlateBar {
        id: bar

        tablet: page.tablet
        visible: page.tablet.hasVessel
        backTo: qsTr("Vessel")
    }

    Made {
        wanted: !page.tablet.hasVessel

        TopBar {
            BackKey {
                id: leave

                to: qsTr("Back")
                name: qsTr("Leave this sheet")
                size: 36
                onClicked: page.sheet.back()
            }

            Words {
                anchors.left: parent.left
                anchors.leftMargin: leave.width + 40 * Theme.u
                anchors.right: parent.right
                anchors.rightMargin: Theme.margin
                anchors.verticalCenter: parent.verticalCenter
                visible: page.portrait || !messages.told
                text: page.sheet.kicker
                bold: true
                size: 36
                maximumLineCount: 1
                elide: Text.ElideRight
                fontSizeMode: Text.HorizontalFit
                minimumPixelSize: Math.round(Theme.least)
            }

            Messages { // upright, under the bar: as high as a plate, nothing stands there
                id: messages

                anchors.left: page.portrait ? parent.left : leave.right
                anchors.leftMargin: (page.portrait ? 6 : 12) * Theme.u
                anchors.right: parent.right
                anchors.rightMargin: 6 * Theme.u
                y: (page.portrait ? 100 : 6) * Theme.u
                tablet: page.tablet
            }
        }
    }

    Words { // of the ask
        id: oneLine

        visible: false
        text: "X"
        bold: true
        size: page.askSize
    }

    // The ask comes first and stays; what is said round it gives way to the picture and pages.
    Pager {
        id: head

        readonly property real low: keys.visible ? acts.y - (page.portrait ? 200 * Theme.u : 0) : bottomLeft.y

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        y: bar.height + 10 * Theme.u
        width: page.leftWidth
        height: Math.min(implicitHeight, Math.max(Theme.target, oneLine.implicitHeight + (Theme.large ? 0 : 42 * Theme.u), low - y - page.pictureLeast - (page.pictureLeast > 0 ? 24 : 6) * Theme.u))
        spacing: 2 * Theme.u
        what: qsTr("the ask")
        words: page.sheet.ask

        Accessible.role: Accessible.StaticText
        Accessible.name: qsTr("%1 %2").arg(page.sheet.ask).arg(page.sheet.why)

        Words {
            width: head.room
            visible: page.folds && page.sheet.message !== "" && page.sheet.hand !== Sheet.Kind.Told
            text: page.sheet.message
            bold: true
            size: 32
            Accessible.ignored: false
            Accessible.role: Accessible.AlertMessage
            Accessible.name: text
        }

        Words {
            width: head.room
            visible: page.tablet.hasVessel && !Theme.large
            text: page.kicker
            size: 30
            color: Theme.colours.ink2
        }

        Words {
            width: head.room
            text: page.sheet.ask
            bold: true
            size: page.askSize
            wrapMode: Text.WordWrap
        }

        Words {
            width: head.room
            visible: page.folds && page.sheet.need !== ""
            text: page.sheet.need
            bold: true
            size: 32
        }

        Words {
            width: head.room
            visible: page.tablet.hasVessel && Theme.large
            text: page.kicker
            size: 30
            color: Theme.colours.ink2
        }

        Words {
            width: head.room
            visible: text !== "" && (Theme.large || page.sheet.places.count === 0 && !keys.visible && !(page.portrait && (page.number || page.pin || page.reads || page.sheet.hand === Sheet.Kind.File)))
            text: page.sheet.why
            size: 30
            color: Theme.colours.ink2
        }
    }

    // ---- the picture, or what was answered
    VesselDrawing {
        id: picture

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        visible: page.pictured && height >= (page.number ? 70 : 126) * Theme.u
        y: head.y + head.height + 10 * Theme.u
        width: page.leftWidth
        height: Math.max(10, page.leftEnd - y - 10 * Theme.u)
        picture: page.sheet.picture
        sweep: true
        labels: page.sheet.places.count === 0 && height > 200 * Theme.u
        unit: Theme.u * (height < 160 * Theme.u ? 0.5 : page.sheet.places.count === 0 ? 1 : 0.7)
        theme: Theme.name
    }

    Made {
        wanted: page.blind

        BlindDrawing {
            anchors.left: page.left
            anchors.leftMargin: Theme.margin
            y: head.y + head.height + 8 * Theme.u
            width: page.leftWidth
            height: Math.max(10, page.leftEnd - y - 12 * Theme.u)
            picture: page.sheet.picture
            blind: page.sheet.blind
            unit: Theme.u
            theme: Theme.name
        }
    }

    Made {
        wanted: page.blind && !page.portrait && !Theme.large

        Column {
            anchors.left: page.left
            anchors.leftMargin: Theme.margin
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
                    cap: 30
                    maximumLineCount: 1
                    elide: Text.ElideRight
                }
            }
        }
    }

    Pager {
        id: terms

        visible: page.pin || page.sheet.hand === Sheet.Kind.People
        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        y: head.y + head.height + 14 * Theme.u
        width: page.leftWidth
        height: Math.max(10, page.leftEnd - y - 12 * Theme.u)
        dragged: true
        what: qsTr("what is signed")

        Repeater {
            model: page.sheet.answered

            Item {
                id: term

                required property string title
                required property string line

                width: terms.room
                height: Math.max(asked.height, said.y + said.height) + 10 * Theme.u

                Words {
                    id: asked

                    anchors.left: parent.left
                    width: Theme.large ? term.width : term.width * 0.56
                    text: term.title
                    size: 30
                    color: Theme.colours.ink2
                }

                Words {
                    id: said

                    anchors.right: parent.right
                    y: Theme.large ? asked.height : 0
                    width: Theme.large ? term.width : term.width * 0.42
                    text: term.line
                    bold: true
                    size: 30
                }
            }
        }
    }

    // ---- places of a round, and the need
    Column {
        id: bottomLeft

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        y: (page.portrait ? page.handTop - 10 * Theme.u : acts.y - 14 * Theme.u) - height
        width: page.leftWidth
        spacing: 8 * Theme.u

        Row {
            visible: page.sheet.places.count > 0 && (page.number || page.sheet.hand === Sheet.Kind.Choice)
            spacing: 12 * Theme.u

            Repeater {
                model: page.sheet.places

                PlaceBox {
                    width: (page.leftWidth - 12 * Theme.u * (page.sheet.places.count - 1)) / Math.max(1, page.sheet.places.count)
                }
            }
        }

        Pager {
            id: under

            width: parent.width
            visible: !page.folds && (page.needs || page.tells)
            height: Math.min(implicitHeight, page.portrait ? 124 * Theme.u : 160 * Theme.u)
            what: qsTr("what it needs")
            words: page.sheet.need + page.sheet.message

            Words {
                id: need

                width: under.room
                visible: page.needs
                text: page.sheet.need
                bold: true
                size: 32
            }

            Words {
                id: message

                width: under.room
                visible: page.tells
                text: page.sheet.message
                bold: true
                size: 32
                Accessible.ignored: false
                Accessible.role: Accessible.AlertMessage
                Accessible.name: text
            }
        }
    }

    Made {
        wanted: page.sheet.hand === Sheet.Kind.Told

        Pager {
            id: told

            anchors.left: page.left
            anchors.leftMargin: Theme.margin
            y: head.y + head.height + 24 * Theme.u
            width: page.width - 2 * Theme.margin
            height: Math.min(implicitHeight, acts.y - y - 12 * Theme.u)
            what: qsTr("what is told")

            Words {
                width: told.room
                text: page.sheet.message
                size: 40
                bold: true
                Accessible.ignored: false
                Accessible.role: Accessible.AlertMessage
                Accessible.name: text
            }
        }
    }

    // ---- the acts
    Item {
        id: acts

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        y: (keys.visible ? keys.y : page.height) - height - 18 * Theme.u
        width: page.leftWidth
        height: Theme.key

        Press {
            id: refuse

            anchors.left: parent.left
            width: (Theme.large ? 260 : 206) * Theme.u
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

        Made {
            id: hold

            wanted: page.sheet.holdToTake

            HoldPress {
                anchors.left: refuse.right
                anchors.leftMargin: Theme.gap
                anchors.right: acts.right
                height: acts.height
                enabled: page.sheet.canTake
                title: page.sheet.takeLabel
                size: 42
                onGiven: page.sheet.take()
            }
        }
    }

    // ---- the hand: only the one that this ask needs is made
    Item {
        id: hand

        anchors.right: parent.right
        anchors.rightMargin: Theme.margin
        y: page.handTop
        width: page.handWidth
        height: (page.portrait ? acts.y - Theme.gap : (keys.visible ? keys.y : page.height) - 18 * Theme.u) - y

        Made {
            id: numbers

            wanted: page.number || page.pin

            NumberHand {
                anchors.fill: parent
                sheet: page.sheet
            }
        }

        Made {
            wanted: page.sheet.hand === Sheet.Kind.Choice

            RowsView {
                anchors.fill: parent
                rowHeight: Math.min(150 * Theme.u, Math.max(Theme.target, (height - 12 * Theme.u * (count - 1)) / Math.max(1, count)))
                what: qsTr("answers")
                model: page.sheet.options
                onPicked: key => page.sheet.choose(key)
            }
        }

        Made {
            id: writes

            wanted: page.writes
            // What was written on is gone: the ask is heard, and Enter is the black button's again.
            onItemRemoved: page.hear()

            WriteHand {
                anchors.fill: parent
                sheet: page.sheet
                keyed: keys.visible
                onKeysAsked: page.wantsKeys = true
            }
        }

        Made {
            wanted: page.reads

            TagHand {
                anchors.fill: parent
                sheet: page.sheet
            }
        }

        Made {
            wanted: page.sheet.hand === Sheet.Kind.File

            PhotoHand {
                anchors.fill: parent
                sheet: page.sheet
            }
        }

        Made {
            wanted: page.sheet.hand === Sheet.Kind.People

            PeopleHand {
                anchors.fill: parent
                sheet: page.sheet
            }
        }
    }

    Item {
        id: keys

        visible: page.writes && (page.wantsKeys || !page.sheet.phrases)
        x: Theme.margin
        y: page.height - height - 12 * Theme.u
        width: page.width - 2 * Theme.margin
        height: childrenRect.height

        Made {
            wanted: keys.visible

            Keyboard {
                width: keys.width
                onTyped: text => page.sheet.type(text)
                onErased: page.sheet.eraseLetter()
            }
        }
    }

    Connections {
        target: page.sheet

        function onChanged() {
            if (page.writes) {
                (writes.item as WriteHand)?.claim();
            } else {
                page.wantsKeys = false;
            }
        }
    }
}
