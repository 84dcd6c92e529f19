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

    Band {
        anchors.fill: parent
        tablet: place.tablet
    }

    WetBand {
        anchors.fill: parent
        tablet: place.tablet
    }

    AlarmBand {
        anchors.fill: parent
        tablet: place.tablet
    }
}
