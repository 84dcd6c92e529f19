#include "app/tablet/alarm.h"

#include <QtEndian>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace brimful::tablet {

namespace {

constexpr double kToneS = 0.35;
constexpr double kPauseS = 0.3;
constexpr double kRampS = 0.005; // without it each tone begins and ends with a click
constexpr double kLoud = 0.9;

template <class Number> void put(QByteArray& out, Number value)
{
    std::array<char, sizeof(Number)> bytes{};
    qToLittleEndian(value, bytes.data());
    out.append(bytes.data(), bytes.size());
}

void tone(QByteArray& out, double hertz)
{
    const int samples = static_cast<int>(kToneS * kAlarmRate);
    for (int i = 0; i < samples; ++i) {
        const double t = static_cast<double>(i) / kAlarmRate;
        const double swell = std::min({1.0, t / kRampS, (kToneS - t) / kRampS});
        put(out, static_cast<std::int16_t>(kLoud * swell * 32767.0 * std::sin(2.0 * std::numbers::pi * hertz * t)));
    }
}

} // namespace

bool Alarm::isOfWork(const report::ClockView& clock)
{
    constexpr std::array<std::string_view, 4> kOfWork{"release", "watch", "sweep", "unwatched"};
    return std::ranges::find(kOfWork, clock.what) != kOfWork.end();
}

void Alarm::see(const std::vector<Clock>& clocks, std::int64_t now_ms)
{
    // A late sweep was made: its watch goes on, to the next one or to its end.
    const auto same = [](const Clock& a, const Clock& b) { return a.number == b.number && (a.what == "release") == (b.what == "release"); };
    const auto runs_again = [&](const Late& late) {
        return std::ranges::any_of(clocks, [&](const Clock& one) { return same(one, late.clock) && one.at_ms > now_ms; });
    };
    const auto is_over = [&](const Late& late) {
        const bool listed = std::ranges::find(clocks, late.clock) != clocks.end();
        return runs_again(late) || (late.heard_ms && !listed);
    };
    std::erase_if(m_late, is_over);
    for (Late& late : m_late) {
        if (late.heard_ms && now_ms - *late.heard_ms >= kAgainMs) {
            late = {late.clock, std::nullopt, false};
        }
    }
    for (const Clock& one : clocks) {
        if (one.at_ms <= now_ms && std::ranges::find(m_late, one, &Late::clock) == m_late.end()) {
            m_late.push_back({one, std::nullopt, false});
        }
    }
}

void Alarm::hear(std::int64_t now_ms)
{
    const auto first = ringing();
    const auto late = first ? std::ranges::find(m_late, *first, &Late::clock) : m_late.end();
    if (late != m_late.end()) {
        late->heard_ms = now_ms;
    }
}

void Alarm::putAside(const std::string& number)
{
    for (Late& late : m_late) {
        late.aside = late.aside || (late.heard_ms && late.clock.number == number);
    }
}

std::optional<Alarm::Clock> Alarm::ringing() const
{
    return firstThat([](const Late& late) { return !late.heard_ms; });
}

std::optional<Alarm::Clock> Alarm::heard(const std::string& but) const
{
    return firstThat([&](const Late& late) { return late.heard_ms && !late.aside && late.clock.number != but; });
}

std::optional<Alarm::Clock> Alarm::firstThat(const std::function<bool(const Late&)>& fits) const
{
    std::optional<Clock> first;
    for (const Late& late : m_late) {
        if (fits(late) && (!first || late.clock.at_ms < first->at_ms)) {
            first = late.clock;
        }
    }
    return first;
}

QByteArray alarmWave()
{
    constexpr std::uint16_t kBytes = 2; // a sample
    QByteArray sound;
    tone(sound, kAlarmHigh);
    tone(sound, kAlarmLow);
    sound.append(static_cast<int>(kPauseS * kAlarmRate) * kBytes, '\0');
    QByteArray out("RIFF");
    put<std::uint32_t>(out, static_cast<std::uint32_t>(sound.size()) + 36);
    out.append("WAVEfmt ");
    put<std::uint32_t>(out, 16);
    put<std::uint16_t>(out, 1); // PCM
    put<std::uint16_t>(out, 1); // channel
    put<std::uint32_t>(out, kAlarmRate);
    put<std::uint32_t>(out, kAlarmRate * kBytes);
    put<std::uint16_t>(out, kBytes);
    put<std::uint16_t>(out, 8 * kBytes);
    out.append("data");
    put<std::uint32_t>(out, static_cast<std::uint32_t>(sound.size()));
    return out + sound;
}

} // namespace brimful::tablet
