// When the alarm rings and when it is quiet. Pure: it is fed the clocks of work that the yard counts, and the time. It releases
// nothing and ends nothing; the picture beside it stays whatever was heard.
#pragma once

#include "core/report/view.h"

#include <QByteArray>
#include <QString>

#include <functional>
#include <optional>
#include <vector>

namespace brimful::tablet {

class Alarm {
public:
    struct Clock {
        std::string number; // of the vessel
        std::string what; // as in report::ClockView
        std::int64_t at_ms{};
        bool operator==(const Clock&) const = default;
    };
    // Heard, and still late so long after: it rings again. Mark: proposal, nobody measured how long a shop may not look.
    static constexpr std::int64_t kAgainMs = 5LL * 60 * 1000;

    // A release, a sweep or a watch that runs out; what lapses of a vessel nobody works at makes no noise. A log that lapses ends
    // its release.
    [[nodiscard]] static bool isOfWork(const report::ClockView& clock);

    // All that run now. One that was seen and ran out rings until it is heard, or until the same clock runs again; one that went
    // away before its time ended in good time.
    void see(const std::vector<Clock>& clocks, std::int64_t now_ms);
    void hear(std::int64_t now_ms); // the one that rings first
    [[nodiscard]] std::optional<Clock> ringing() const; // which ran out first; nothing: quiet
    // Heard and still late: told of without a sound until it is put aside, rings again or is done. Of this vessel not.
    [[nodiscard]] std::optional<Clock> heard(const std::string& but) const;
    void putAside(const std::string& number);

private:
    struct Late {
        Clock clock;
        std::optional<std::int64_t> heard_ms;
        bool aside{}; // told of since it was heard, and put aside
    };
    [[nodiscard]] std::optional<Clock> firstThat(const std::function<bool(const Late&)>& fits) const;
    std::vector<Late> m_late;
};

// Two tones, up and down, then a pause: RIFF/WAVE, PCM, one channel of 16 bits. Made here; no foreign sound.
inline constexpr int kAlarmRate = 44100; // samples a second
inline constexpr int kAlarmHigh = 988; // Hz; both lie in 500 to 2,500 Hz, where a danger signal is heard (ISO 7731, from memory)
inline constexpr int kAlarmLow = 740;
[[nodiscard]] QByteArray alarmWave();

// What makes the sound, if anything does.
class Sounder {
public:
    Sounder() = default;
    Sounder(const Sounder&) = delete;
    Sounder& operator=(const Sounder&) = delete;
    virtual ~Sounder() = default;
    [[nodiscard]] virtual bool canSound() const = 0; // false: there is nothing here that sounds
    virtual void ring(bool on) = 0;
    virtual void once() = 0; // to try it
};

} // namespace brimful::tablet
