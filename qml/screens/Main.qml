// The window: one screen at a time, and the keys that work on every one of them.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Window
import Brimful

Window {
    id: window

    required property Tablet tablet
    readonly property Page page: loader.item as Page

    width: 1280
    height: 800
    visible: true
    title: qsTr("Brimful")
    color: Theme.colours.paper

    function place(screen: int): string {
        switch (screen) {
        case Tablet.View.FirstStart:
            return "FirstStart.qml";
        case Tablet.View.Yard:
            return "YardScreen.qml";
        case Tablet.View.Vessel:
            return "VesselScreen.qml";
        case Tablet.View.Sheet:
            return "SheetScreen.qml";
        case Tablet.View.Held:
            return "HeldScreen.qml";
        case Tablet.View.Stage:
            return "StageScreen.qml";
        case Tablet.View.Clock:
            return "ClockScreen.qml";
        case Tablet.View.Trail:
            return "TrailScreen.qml";
        case Tablet.View.Tag:
            return "TagScreen.qml";
        case Tablet.View.Figures:
            return "FiguresScreen.qml";
        case Tablet.View.Figure:
            return "FigureScreen.qml";
        case Tablet.View.SetUp:
            return "SetUpScreen.qml";
        case Tablet.View.Law:
            return "LawScreen.qml";
        case Tablet.View.Questions:
            return "QuestionsScreen.qml";
        case Tablet.View.About:
            return "AboutScreen.qml";
        case Tablet.View.Recovery:
            return "RecoveryScreen.qml";
        }
        return "FaultScreen.qml";
    }

    function load() {
        loader.setSource(window.place(window.tablet.screen), {
            "tablet": window.tablet
        });
        if (window.page !== null) {
            window.page.forceActiveFocus();
        }
    }

    Binding {
        target: Theme
        property: "name"
        value: window.tablet.theme
    }

    Binding {
        target: Theme
        property: "text"
        value: window.tablet.textSize / 100
    }

    Connections {
        target: window.tablet

        function onScreenChanged() {
            window.load();
        }
    }

    Component.onCompleted: window.load()

    FocusScope {
        id: keys

        anchors.fill: parent
        focus: true
        LayoutMirroring.enabled: Theme.mirrored
        LayoutMirroring.childrenInherit: true

        Keys.onPressed: event => {
            const page = window.page;
            if (page === null) {
                return;
            }
            event.accepted = true;
            switch (event.key) {
            case Qt.Key_Return:
            case Qt.Key_Enter:
                if (!event.isAutoRepeat) {
                    page.black();
                }
                return;
            case Qt.Key_Escape:
                if (window.tablet.screen !== Tablet.View.Clock) {
                    window.tablet.back();
                }
                return;
            case Qt.Key_F12:
            case Qt.Key_Pause:
                window.tablet.stop();
                return;
            case Qt.Key_F8:
                window.tablet.speakUp();
                return;
            case Qt.Key_F9:
                page.refused();
                return;
            case Qt.Key_F1:
                if (window.tablet.hasVessel) {
                    window.tablet.openHeld();
                }
                return;
            case Qt.Key_F6:
                if (window.tablet.hasVessel) {
                    window.tablet.openPart("tag");
                }
                return;
            case Qt.Key_F7:
                if (window.tablet.hasVessel) {
                    window.tablet.openPart("trail");
                }
                return;
            case Qt.Key_Backspace:
                page.erased();
                return;
            case Qt.Key_U:
                page.nextUnit();
                return;
            case Qt.Key_Slash:
                page.slash();
                page.typed("/");
                return;
            }
            if (event.text.length === 1 && "0123456789.,".indexOf(event.text) >= 0) {
                page.typed(event.text);
                return;
            }
            event.accepted = false;
        }
        Keys.onReleased: event => {
            if (window.page !== null && !event.isAutoRepeat && (event.key === Qt.Key_Return || event.key === Qt.Key_Enter)) {
                window.page.blackUp();
            }
        }

        Loader {
            id: loader

            anchors.fill: parent
            anchors.margins: window.tablet.demo ? 6 * Theme.u : 0
            focus: true
        }

        Made {
            wanted: window.tablet.demo

            DemoBand {
                anchors.fill: parent
            }
        }
    }
}
