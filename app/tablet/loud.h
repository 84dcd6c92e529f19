// The alarm's sound through this machine's loudspeaker.
#pragma once

#include "app/tablet/alarm.h"

#include <QSoundEffect>
#include <QTemporaryDir>

namespace brimful::tablet {

class Loud : public Sounder {
public:
    Loud();
    [[nodiscard]] bool canSound() const override; // asked anew each time: a headset is plugged in, a loudspeaker taken away
    void ring(bool on) override;
    void once() override;

private:
    void play(int times);
    QTemporaryDir m_dir; // the sound is made when the program starts
    QSoundEffect m_effect;
};

} // namespace brimful::tablet
