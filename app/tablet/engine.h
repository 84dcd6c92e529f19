// The engine that shows the screens, set up once for the program and its tests.
#pragma once

#include <QQmlApplicationEngine>

namespace brimful::tablet {

class Tablet;

// What Qt reads from the environment, unless it is set there. Before the application object.
void setupPlatform();
// Fonts, import path, logical pixels a millimetre. Before any screen is loaded.
void setupEngine(QQmlEngine& engine);
// Reads the screens that come first, so that showing them takes less time.
void warm(QQmlEngine& engine);
// Loads the main window for a tablet, which must outlive the engine.
void show(QQmlApplicationEngine& engine, Tablet& tablet);

// Logical pixels a millimetre: BRIMFUL_PX_PER_MM, else the screen's own, else that of 1280 x 800 on 10.1 inches.
[[nodiscard]] double pixelsPerMillimetre();

} // namespace brimful::tablet
