// How large letters are.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Press {
    required property Tablet tablet

    //: how large letters are, per cent
    title: qsTr("Text %1 %").arg(tablet.textSize)
    name: qsTr("Text size: %1 %").arg(tablet.textSize)
    size: 32
    onClicked: tablet.nextTextSize()
}
