// Where the alarm, wet glass and what was scanned are told, one at a time: a place that its screen keeps for them, so that no key is
// covered and none moves under a finger.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Item {
    id: place

    required property Tablet tablet
    readonly property bool told: tablet.alarm !== "" || tablet.wet || tablet.band !== "" // what else stands in this place gives way

    height: Theme.target

    Made {
        wanted: place.tablet.band !== "" && place.tablet.alarm === "" && !place.tablet.wet

        Band {
            anchors.fill: parent
            tablet: place.tablet
        }
    }

    Made {
        wanted: place.tablet.wet && place.tablet.alarm === ""

        WetBand {
            anchors.fill: parent
            tablet: place.tablet
        }
    }

    Made {
        wanted: place.tablet.alarm !== ""

        AlarmBand {
            anchors.fill: parent
            tablet: place.tablet
        }
    }
}
