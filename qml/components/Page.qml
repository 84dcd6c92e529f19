// A screen: what a reader says when it opens, and what every one of them answers to from the keyboard.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

FocusScope {
    id: page

    required property Tablet tablet
    required property string said
    readonly property bool portrait: height > width

    signal black // Enter goes down
    signal blackUp // and up
    signal refused // F9
    signal typed(string text) // a digit, a point, a fraction's bar
    signal erased
    signal nextUnit
    signal slash // the scan field

    function hear() {
        heading.forceActiveFocus();
    }

    Item {
        id: heading

        focus: true
        Accessible.role: Accessible.Heading
        Accessible.name: page.said
        Accessible.focusable: true
    }
}
