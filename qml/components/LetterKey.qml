// A key with one digit or letter: there is nothing on it to fit or to fold.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Press {
    id: key

    contentItem: Words {
        text: key.title
        size: key.size
        bold: true
        color: key.inkHere
        wrapMode: Text.NoWrap
        fontSizeMode: Text.Fit
        minimumPixelSize: Math.round(Theme.least)
        horizontalAlignment: Text.AlignHCenter
        verticalAlignment: Text.AlignVCenter
    }
}
