// A key that only takes away: it acts as soon as it is touched and asks for no PIN; on wet glass it wants a moment more.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Press {
    id: stop

    readonly property bool takesAway: true // read by the guard of the glass, which calls the act

    signal act

    onPressed: stop.act()
    Accessible.onPressAction: stop.act()
}
