#include "core/people/stretching.h"

#include <sodium.h>

#include <utility>

namespace brimful::people {

namespace {

void wipe(std::string& text)
{
    sodium_memzero(text.data(), text.size());
    text.clear();
}

void wipe(std::optional<Stretch>& one)
{
    if (one) {
        wipe(one->pin);
        one.reset();
    }
}

} // namespace

std::string stretched(const Stretch& one)
{
    std::string out(32, '\0');
    const int failed = crypto_pwhash(reinterpret_cast<unsigned char*>(out.data()), out.size(), one.pin.data(), one.pin.size(),
        reinterpret_cast<const unsigned char*>(one.salt.data()), one.operations, one.memory, crypto_pwhash_ALG_ARGON2ID13);
    return failed == 0 ? out : std::string();
}

Stretching::Stretching(std::function<std::string(const Stretch&)> how)
    : m_how(std::move(how))
{
}

Stretching::~Stretching() { forget(); }

void Stretching::begin(Stretch one)
{
    const std::scoped_lock lock(m_mutex);
    wipe(m_next);
    if (one == m_running || one == m_done) {
        wipe(one.pin);
        return;
    }
    m_next = one;
    wipe(one.pin);
    if (!m_worker.joinable()) {
        m_worker = std::jthread([this](const std::stop_token& stop) { work(stop); });
    }
    m_changed.notify_all();
}

std::string Stretching::take(const Stretch& one)
{
    std::unique_lock lock(m_mutex);
    m_changed.wait(lock, [&] { return m_running != one; });
    if (m_done == one) {
        wipe(m_done);
        return std::exchange(m_result, {});
    }
    if (m_next == one) {
        wipe(m_next); // another one is in its way
    }
    lock.unlock();
    return m_how(one);
}

void Stretching::forget()
{
    const std::scoped_lock lock(m_mutex);
    wipe(m_next);
    wipe(m_running);
    wipe(m_done);
    wipe(m_result);
}

void Stretching::work(const std::stop_token& stop)
{
    std::unique_lock lock(m_mutex);
    while (m_changed.wait(lock, stop, [this] { return m_next.has_value(); })) {
        m_running = m_next; // copied, and what it was copied from wiped: a moved text leaves its letters behind
        wipe(m_next);
        Stretch one = *m_running;
        lock.unlock();
        std::string result = m_how(one);
        lock.lock();
        const bool wanted = m_running == one; // nobody said forget
        wipe(one.pin);
        if (wanted) {
            wipe(m_done);
            wipe(m_result);
            m_done = m_running;
            wipe(m_running);
            m_result = std::move(result);
        } else {
            wipe(result);
        }
        m_changed.notify_all();
    }
}

} // namespace brimful::people
