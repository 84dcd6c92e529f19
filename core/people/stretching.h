// A PIN is stretched beside, while a hand still types: who signs then need not wait for it. Nothing is tried and nothing told;
// what was stretched and not asked for is wiped. One at a time: the newest that was asked for, the others are let go.
#pragma once

#include <condition_variable>
#include <functional>
#include <mutex>
#include <optional>
#include <stop_token>
#include <string>
#include <thread>

namespace brimful::people {

// What is stretched, and by how much (Argon2id: opslimit, memlimit in bytes).
struct Stretch {
    std::string pin, salt;
    unsigned long long operations{};
    std::size_t memory{};
    bool operator==(const Stretch&) const = default;
};

// 32 bytes; "" there is not memory enough.
[[nodiscard]] std::string stretched(const Stretch&);

class Stretching {
public:
    explicit Stretching(std::function<std::string(const Stretch&)> how = stretched);
    Stretching(const Stretching&) = delete;
    Stretching& operator=(const Stretching&) = delete;
    ~Stretching();

    void begin(Stretch); // returns at once
    [[nodiscard]] std::string take(const Stretch&); // of the one that was begun, when it is the same; else it is stretched here
    void forget();

private:
    void work(const std::stop_token&);

    std::function<std::string(const Stretch&)> m_how;
    std::mutex m_mutex;
    std::condition_variable_any m_changed;
    std::optional<Stretch> m_next, m_running, m_done;
    std::string m_result; // of m_done
    std::jthread m_worker; // last: it uses all the others
};

} // namespace brimful::people
