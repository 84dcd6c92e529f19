// pack.json's parameters, and the lists that everything else names: roles, stages, barriers, stops, events.
#include "core/quantity/recorded.h"
#include "core/rules/loading.h"

#include <algorithm>

namespace brimful::rules {

using canon::Type;

void Loading::parameters(const Spot& spot)
{
    if (!spot.exists()) {
        return;
    }
    for (const canon::Member& member : spot.json->members) {
        const Spot one = spot.at(member.key);
        keys(one, {"value", "tighter", "source"});
        Parameter parameter;
        parameter.id = member.key;
        parameter.set_by = pack.id;
        const Spot value = one.at("value");
        if (value.exists() && value.json->is(Type::Integer)) {
            parameter.unit = "1";
            parameter.count = value.json->integer;
            parameter.typed = std::to_string(value.json->integer);
        } else {
            parameter.typed = text(value, true);
            const auto parsed = quantity::parse(parameter.typed);
            if (!parsed) {
                fail(LoadFault::BadQuantity, value, {}, parameter.typed);
                continue;
            }
            parameter.dimension = parsed->dimension;
            const auto recorded = quantity::record(parameter.typed, parsed->dimension);
            parameter.unit = recorded ? recorded->unit : std::string();
            parameter.count = recorded ? recorded->count : 0;
        }
        const std::string tighter = text(one.at("tighter"), true);
        if (tighter != "lower" && tighter != "higher") {
            fail(LoadFault::UnknownName, one.at("tighter"), "lower, higher", tighter);
        }
        parameter.tighter_is_lower = tighter == "lower";
        parameter.sources = sources(one.at("source"));
        pack.parameters.push_back(std::move(parameter));
    }
}

void Loading::lists()
{
    const auto plain = [&](const std::string& name, const std::string& key) {
        const Spot spot = file(name, true);
        keys(spot, {key});
        return words(spot.at(key), true);
    };
    pack.stages = plain("stages.json", "stages");
    pack.roles = plain("roles.json", "roles");
    pack.barriers = plain("barriers.json", "barriers");
    if (pack.roles.size() > 60) {
        fail(LoadFault::TooMany, file("roles.json", true), "60");
    }

    const auto named = [&](const std::string& name, const std::string& key) {
        const Spot spot = file(name, true);
        keys(spot, {key});
        Spot things = spot.at(key);
        if (spot.exists() && (!things.exists() || !things.json->is(Type::Object))) {
            fail(things.exists() ? LoadFault::WrongType : LoadFault::MissingKey, things, "object");
            things.json = nullptr;
        }
        return things;
    };
    const Spot stops = named("stops.json", "stops");
    if (stops.exists()) {
        for (const canon::Member& member : stops.json->members) {
            const Spot one = stops.at(member.key);
            keys(one, {"cleared_by", "cleared_with", "refuses"});
            StopKind stop;
            stop.id = member.key;
            stop.cleared_by = indices(one.at("cleared_by"), pack.roles, "role");
            stop.cleared_with = indices(one.at("cleared_with"), pack.roles, "role");
            stop.refuses = yes(one.at("refuses"));
            if (stop.cleared_by.empty()) {
                fail(LoadFault::MissingKey, one.at("cleared_by"), "role");
            }
            pack.stops.push_back(std::move(stop));
        }
    }
    std::vector<std::string> stop_names;
    for (const StopKind& stop : pack.stops) {
        stop_names.push_back(stop.id);
    }
    const Spot events = named("events.json", "events");
    if (events.exists()) {
        for (const canon::Member& member : events.json->members) {
            const Spot one = events.at(member.key);
            keys(one, {"device_alone", "raises"});
            EventKind event;
            event.id = member.key;
            event.device_alone = yes(one.at("device_alone"));
            if (const Spot raises = one.at("raises"); raises.exists()) {
                const std::string name = word(raises, true);
                event.raises = pack.stop(name);
                if (event.raises == kNone) {
                    fail(LoadFault::UnknownName, raises, "stop", name, nearestName(name, stop_names));
                }
            }
            pack.events.push_back(std::move(event));
        }
    }
}

} // namespace brimful::rules
