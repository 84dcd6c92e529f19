// What the verifier knows of devices, people, roles and clocks at the row that it has reached, gathered from the rows
// before. Its own account: nothing here goes through YardState.
#pragma once

#include "core/ledger/body.h"
#include "core/people/ids.h"

#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

namespace brimful::canon {
struct Json;
}

namespace brimful::ledger {

class Known {
public:
    // False when it is not the first of its kind, or lacks a founder.
    bool create(const Body& body, const canon::Json& payload);
    // True when the recovery sheet signed this enrolment of an authoriser; who then signs with the key that it brings.
    bool recover(const Body& body, const canon::Json& payload);
    // After an entry was checked.
    void learn(const Body& body, const canon::Json& payload);
    // This device's entries name an entry of another device: it knows what that device wrote up to there.
    void hear(std::string_view device, const std::string& of, std::int64_t seq);

    [[nodiscard]] bool isOfThisYard(const Body& body) const { return body.yard == m_yard; }
    [[nodiscard]] bool hasSeveralDevices() const { return m_devices.size() > 1; }
    [[nodiscard]] const PublicKey* device(std::string_view hex) const;
    [[nodiscard]] bool knowsPerson(std::string_view hex) const { return m_people.find(hex) != m_people.end(); }
    // This person's keys on this device with which this entry may be signed, oldest first: not one that the device had renewed
    // by then, unless its feed forks there.
    [[nodiscard]] std::vector<PublicKey> keys(const Body& body, bool forked) const;
    [[nodiscard]] bool heldRole(const Body& body) const;

private:
    struct Grant {
        std::string role;
        std::int64_t from{};
        std::int64_t until{};
        std::map<std::string, std::int64_t> ended; // by device, where in its feed: who knows that entry, signs no more by any clock
    };
    struct Key {
        std::string device;
        PublicKey key;
        std::string enrolled_on; // the device whose entry did, and where in its feed
        std::int64_t enrolled_seq{};
    };
    struct Signatory {
        std::vector<Key> keys;
        std::vector<Grant> grants;
    };
    struct Boot {
        std::int64_t wall_ms{};
        std::int64_t boot_ms{};
    };
    [[nodiscard]] std::int64_t timeOf(const Body& body) const;
    void makeAuthoriser(const Body& body, const std::string& person, const std::string& device, const PublicKey& key);

    std::string m_yard;
    std::optional<PublicKey> m_recovery;
    // Asked for by views of the bytes at hand, for every row: no text is copied to ask.
    struct TextHash {
        using is_transparent = void;
        std::size_t operator()(std::string_view text) const { return std::hash<std::string_view>()(text); }
    };
    template <class Value> using ByText = std::unordered_map<std::string, Value, TextHash, std::equal_to<>>;
    ByText<PublicKey> m_devices;
    ByText<Signatory> m_people;
    ByText<Boot> m_boots;
    std::map<std::pair<std::string, std::string>, std::int64_t> m_heard; // device, of device: up to which seq
};

} // namespace brimful::ledger
