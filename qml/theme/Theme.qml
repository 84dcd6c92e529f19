// Colours, sizes and faces. A size is a number of pixels on a screen of 1280 by 800 and 10.1 inches, times `u`: so it is
// the same number of millimetres on every screen.
pragma Singleton
import QtQuick
import Brimful

QtObject {
    id: theme

    property string name: "light"
    property real text: 1 // how large letters are, 1 to 2; keys, targets and margins stay
    readonly property bool large: text > 1.4 // signs stand for words, tabs page, pictures fold
    readonly property Colours colours: name === "dark" ? dark : name === "sunlight" ? sunlight : light

    readonly property real u: Look.pixelsPerMillimetre / 5.88
    readonly property bool mirrored: Look.mirrored // read from the right
    readonly property string family: Look.family
    readonly property string mono: Look.mono

    readonly property color bandDark: "#000000" // of a yard that only plays, in every theme
    readonly property color bandLight: "#FFFFFF"

    readonly property real margin: 24 * u
    readonly property real gap: 18 * u
    readonly property real corner: 10 * u
    readonly property real line: 3 * u
    readonly property real key: 120 * u
    readonly property real target: 84 * u
    readonly property real plate: 96 * u
    readonly property real hand: 534 * u
    readonly property real least: 30 * u
    readonly property real drawn: u * (1 + (text - 1) * 0.4) // unit of a drawing: its own words grow with the letters, within reason

    function signal(colour: string): color {
        switch (colour) {
        case "danger":
            return theme.colours.danger;
        case "warning":
            return theme.colours.warning;
        case "caution":
            return theme.colours.caution;
        case "notice":
            return theme.colours.notice;
        }
        return theme.colours.panel;
    }

    function onSignal(colour: string): color {
        switch (colour) {
        case "danger":
            return theme.colours.dangerText;
        case "warning":
            return theme.colours.warningText;
        case "caution":
            return theme.colours.cautionText;
        case "notice":
            return theme.colours.noticeText;
        }
        return theme.colours.ink;
    }

    readonly property Colours light: Colours {
        paper: "#FAF8F2"
        panel: "#FFFFFF"
        ink: "#10181D"
        ink2: "#36424A"
        line: "#5F6B72"
        steel: "#DCE1E3"
        water: "#D0E5F2"
        waterInk: "#0A3D63"
        gas: "#FBE5C6"
        gasInk: "#6A2E00"
        act: "#10181D"
        actText: "#FAF8F2"
        danger: "#9B111E"
        dangerText: "#FFFFFF"
        warning: "#FF8A00"
        warningText: "#000000"
        caution: "#FFD000"
        cautionText: "#000000"
        notice: "#004B7A"
        noticeText: "#FFFFFF"
    }

    readonly property Colours dark: Colours {
        paper: "#0E1418"
        panel: "#18222A"
        ink: "#F5F2EA"
        ink2: "#CBD3D6"
        line: "#8B979D"
        steel: "#2C373D"
        water: "#12364F"
        waterInk: "#A9DAF9"
        gas: "#43290A"
        gasInk: "#FFCF92"
        act: "#F5F2EA"
        actText: "#0E1418"
        danger: "#9B111E"
        dangerText: "#FFFFFF"
        warning: "#FF8A00"
        warningText: "#000000"
        caution: "#FFD000"
        cautionText: "#000000"
        notice: "#004B7A"
        noticeText: "#FFFFFF"
    }

    readonly property Colours sunlight: Colours {
        paper: "#FFFFFF"
        panel: "#FFFFFF"
        ink: "#000000"
        ink2: "#000000"
        line: "#000000"
        steel: "#FFFFFF"
        water: "#FFFFFF"
        waterInk: "#000000"
        gas: "#FFFFFF"
        gasInk: "#000000"
        act: "#000000"
        actText: "#FFFFFF"
        danger: "#9B111E"
        dangerText: "#FFFFFF"
        warning: "#FF8A00"
        warningText: "#000000"
        caution: "#FFD000"
        cautionText: "#000000"
        notice: "#004B7A"
        noticeText: "#FFFFFF"
    }
}
