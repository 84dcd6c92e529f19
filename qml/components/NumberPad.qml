// Digits with 1-2-3 on top, units at the right. Shared by numbers and PINs.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Item {
    id: pad

    property bool pin: false
    property bool point: true
    property string freeKey: ""
    property RowList units: null

    signal digit(string text)
    signal erased
    signal unitPicked(string key)

    LayoutMirroring.enabled: false // digits stand as they do everywhere
    LayoutMirroring.childrenInherit: true

    readonly property real pitchX: (width + Theme.gap) / 4
    readonly property real keyWidth: pitchX - Theme.gap
    readonly property real pitchY: (height + Theme.gap) / 4
    readonly property real keyHeight: pitchY - Theme.gap

    Repeater {
        model: 9

        LetterKey {
            required property int index

            size: 56
            padding: 4 * Theme.u
            width: pad.keyWidth
            height: pad.keyHeight
            x: (index % 3) * pad.pitchX
            y: Math.floor(index / 3) * pad.pitchY
            title: (index + 1).toString()
            onClicked: pad.digit(title)
        }
    }

    LetterKey {
        size: 56
        padding: 4 * Theme.u
        width: pad.keyWidth
        height: pad.keyHeight
        x: pad.pin ? pad.pitchX : 0
        y: 3 * pad.pitchY
        title: "0"
        onClicked: pad.digit("0")
    }

    LetterKey {
        size: 56
        padding: 4 * Theme.u
        width: pad.keyWidth
        height: pad.keyHeight
        visible: !pad.pin && pad.point
        x: pad.pitchX
        y: 3 * pad.pitchY
        title: "."
        name: qsTr("Point")
        onClicked: pad.digit(".")
    }

    LetterKey {
        size: 56
        padding: 4 * Theme.u
        width: pad.keyWidth
        height: pad.keyHeight
        visible: !pad.pin && pad.freeKey !== ""
        x: 2 * pad.pitchX
        y: 3 * pad.pitchY
        title: pad.freeKey
        name: pad.freeKey === "/" ? qsTr("Fraction bar") : qsTr("Below zero")
        onClicked: pad.digit(pad.freeKey)
    }

    Press {
        size: 56
        padding: 4 * Theme.u
        width: pad.keyWidth
        height: pad.keyHeight
        x: 3 * pad.pitchX
        y: 0
        glyph: "erase"
        name: qsTr("Erase")
        quiet: true
        onClicked: pad.erased()
    }

    Repeater {
        model: pad.pin ? null : pad.units

        Press {
            required property int index
            required property string key
            required title
            required chosen

            padding: 4 * Theme.u
            width: pad.keyWidth
            height: pad.keyHeight
            x: 3 * pad.pitchX
            y: (index + 1) * pad.pitchY
            size: 36
            quiet: true
            name: chosen ? qsTr("Unit %1, in use").arg(title) : qsTr("Unit %1").arg(title)
            onClicked: pad.unitPicked(key)
        }
    }
}
