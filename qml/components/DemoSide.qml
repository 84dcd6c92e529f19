// One side of the band round a yard that only plays.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Item {
    id: side

    property bool upright: false
    property real thick: 6 * Theme.u

    clip: true

    Row {
        visible: !side.upright

        Repeater {
            model: Math.ceil(side.width / (24 * Theme.u)) + 1

            Row {
                Rectangle {
                    width: 12 * Theme.u
                    height: side.thick
                    color: Theme.bandDark
                }

                Rectangle {
                    width: 12 * Theme.u
                    height: side.thick
                    color: Theme.bandLight
                }
            }
        }
    }

    Column {
        visible: side.upright

        Repeater {
            model: Math.ceil(side.height / (24 * Theme.u)) + 1

            Column {
                Rectangle {
                    width: side.thick
                    height: 12 * Theme.u
                    color: Theme.bandDark
                }

                Rectangle {
                    width: side.thick
                    height: 12 * Theme.u
                    color: Theme.bandLight
                }
            }
        }
    }
}
