// The loader's workbench: the pack as it grows, the files, and every error found so far. Private to this room.
#pragma once

#include "core/rules/pack.h"

#include <functional>
#include <initializer_list>
#include <set>

namespace brimful::rules {

// A value in one file, with the path that leads to it.
struct Spot {
    const canon::Json* json{};
    std::string file;
    std::string path;

    [[nodiscard]] Spot at(std::string_view key) const; // member; json is null when absent
    [[nodiscard]] Spot at(std::size_t item) const; // item of an array
    [[nodiscard]] bool exists() const { return json != nullptr; }
};

class Loading {
public:
    explicit Loading(const PackSource& source);

    Pack pack;
    std::vector<LoadError> errors;

    // ---- errors
    void fail(LoadFault, const Spot&, std::string expected = {}, std::string found = {}, std::string nearest = {});
    template <class List> Index named(const List& known, const Spot& spot, const char* what); // id of an existing thing

    // ---- reading
    [[nodiscard]] Spot file(const std::string& name, bool required);
    [[nodiscard]] std::vector<std::string> filesUnder(const std::string& folder) const;
    bool keys(const Spot&, std::initializer_list<std::string_view> allowed); // an object with only these keys
    std::string text(const Spot&, bool required);
    std::string word(const Spot&, bool required); // an id
    bool yes(const Spot&); // "yes" or absent
    std::int64_t version(const Spot&); // 1, 2, 3 ...
    std::vector<std::string> words(const Spot&, bool required);
    std::vector<Index> indices(const Spot&, const std::vector<std::string>& known, const char* what);
    std::vector<SourceRef> sources(const Spot&);
    std::optional<std::int64_t> count(
        const Spot&, quantity::Dimension, const std::string& unit); // "4 L" or {"parameter"}; an integer for a count
    std::int64_t duration(const Spot&); // ms; 0 when absent
    Index place(const Spot&);

    // ---- parts (each in its own file)
    void parameters(const Spot&);
    void lists();
    void steps();
    void stepBodies();
    void holdPoints();
    enum class Pass : std::uint8_t { Parameters, Rules }; // parameters move before anything reads them
    void overlay(const PackSource&, Pass);
    void derivations();
    void comparable(const Spot&, const Fact& asked, const Fact& recorded, bool echo);
    void check();
    void checkOrder();
    void checkGrants();
    void checkExamples();
    void checkStrings();

    Index condition(const Spot&, Index own_step); // appended to pack.conditions; its start
    enum class Asked : std::uint8_t { InStep, AtHoldPoint };
    Index fact(const Spot&, Index step, const std::string& id, const std::string& key, Index reg, Asked where = Asked::InStep);
    std::vector<Rule> rulesOf(const Spot&, Index hold_point_stage);
    void stringsOf(const Spot&, bool of_overlay);

    std::map<std::string, std::int64_t> shipped_values; // before overlays: counts of parameters, lives of steps as "life.STEP"
    std::map<Index, Spot> step_spots; // each step's object, kept until conditions are read
    std::vector<std::pair<Index, Spot>> derived_spots;
    const std::map<std::string, std::string, std::less<>>* source_files{};

private:
    bool node(const Spot&, Index own_step, int depth, std::size_t& nodes);
    bool leaf(const Spot&, Condition&);
    void onlyOwn(const Spot&, Index own_step, const Condition&);
    SignatureRef signature(const Spot&);
    void registerOf(const Spot&, Index step, const std::string& id, const std::string& key);
    std::map<std::string, canon::Json> m_json;
    std::string m_id;
};

[[nodiscard]] std::string nearestName(std::string_view wanted, const std::vector<std::string>& known);

} // namespace brimful::rules
