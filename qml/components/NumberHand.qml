// A number or a PIN by hand: what is being typed over the pad that types it.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Item {
    id: hand

    required property Sheet sheet
    readonly property bool pin: sheet.hand === Sheet.Kind.Pin

    function press(text: string) {
        if (hand.pin) {
            hand.sheet.pinPress(text);
        } else {
            hand.sheet.pad.press(text);
        }
    }

    function erase() {
        if (hand.pin) {
            hand.sheet.pinErase();
        } else {
            hand.sheet.pad.erase();
        }
    }

    NumberField {
        visible: !hand.pin && hand.sheet.fields.count === 0
        width: parent.width
        height: Theme.key
        caption: hand.sheet.pad.caption
        value: hand.sheet.pad.shown
        unit: hand.sheet.pad.unit
        echo: hand.sheet.pad.echo
        outside: hand.sheet.outside
    }

    Row {
        visible: !hand.pin && hand.sheet.fields.count > 0
        spacing: Theme.gap

        Repeater {
            model: hand.sheet.fields

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
                onClicked: hand.sheet.pickField(key)
                contentItem: Item {}

                NumberField {
                    anchors.fill: parent
                    Accessible.ignored: true
                    caption: one.title
                    value: one.line
                    unit: one.note
                    active: one.chosen
                    outside: one.chosen && hand.sheet.outside
                }
            }
        }
    }

    PinField {
        visible: hand.pin
        width: parent.width
        height: Theme.key
        caption: hand.sheet.pinCaption
        dots: hand.sheet.dots
    }

    NumberPad {
        y: Theme.key + Theme.gap
        width: parent.width
        height: parent.height - y
        pin: hand.pin
        point: hand.sheet.pad.point
        freeKey: hand.sheet.pad.free
        units: hand.sheet.pad.units
        onDigit: text => hand.press(text)
        onErased: hand.erase()
        onUnitPicked: key => hand.sheet.pad.pickUnit(key)
    }
}
