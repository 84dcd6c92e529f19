// Turns the page of what is longer than its place; after the last page comes the first again.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Press {
    id: key

    required property Flickable of
    required property string what
    property real step: 0 // a page is whole rows of this height
    property real page: step > 0 ? Math.max(1, Math.floor(of.height / step)) * step : of.height * 0.85
    property bool needed: of.contentHeight > of.height + 1
    readonly property real last: of.originY + of.contentHeight - of.height

    width: Theme.target
    height: Theme.target
    quiet: true
    glyph: of.contentY < last - 1 ? "more" : "first"
    name: qsTr("More: %1").arg(what)
    onClicked: of.contentY = of.contentY < last - 1 ? Math.min(last, of.contentY + page) : of.originY
}
