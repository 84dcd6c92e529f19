#include "app/tablet/loud.h"

#include <QAudioDevice>
#include <QFile>
#include <QMediaDevices>
#include <QUrl>

namespace brimful::tablet {

Loud::Loud()
{
    QFile file(m_dir.filePath(QStringLiteral("alarm.wav")));
    if (file.open(QIODevice::WriteOnly)) {
        file.write(alarmWave());
        file.close();
        m_effect.setSource(QUrl::fromLocalFile(file.fileName()));
    }
    m_effect.setVolume(1.0F);
}

bool Loud::canSound() const { return !QMediaDevices::audioOutputs().isEmpty() && m_effect.status() != QSoundEffect::Error; }

void Loud::play(int times)
{
    m_effect.setAudioDevice(QMediaDevices::defaultAudioOutput());
    m_effect.setLoopCount(times);
    m_effect.play();
}

void Loud::ring(bool on)
{
    if (!on) {
        m_effect.stop();
    } else if (canSound() && !(m_effect.isPlaying() && m_effect.loopCount() == QSoundEffect::Infinite)) {
        play(QSoundEffect::Infinite);
    }
}

void Loud::once()
{
    if (canSound() && !m_effect.isPlaying()) {
        play(1);
    }
}

} // namespace brimful::tablet
