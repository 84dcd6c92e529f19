// key, device: keys that are suspect or new, the recovery sheet, further tablets, and who signed together on one.
#include "app/cli/acts.h"
#include "app/cli/commands.h"

#include "core/yard/iso_time.h"

#include <QCoreApplication>

namespace brimful::cli {

namespace {

using canon::Json;

struct Tr {
    Q_DECLARE_TR_FUNCTIONS(Cli)
};

struct Arguments {
    std::string person, by, with, why, since, file, name, code;
    std::vector<std::string> people;
};

int suspect(Options& options, yard::Yard& yard, const Arguments& a)
{
    std::optional<std::int64_t> since;
    if (!a.since.empty()) {
        since = yard::parseTime(a.since);
        if (!since) {
            report::Refusal refusal;
            refusal.why = report::Why::BadTime;
            refusal.path = "--since";
            refusal.found = a.since;
            return options.fail(refusal);
        }
    }
    return receipt(options, yard, yard.suspectKey(a.person, a.why, since, options.signing(a.by)));
}

int together(const Options& options, const yard::Yard& yard)
{
    const auto pairs = yard.signedTogether();
    if (!pairs) {
        return options.fail(pairs.error());
    }
    Json list = Json::array();
    for (const yard::SignedPair& pair : *pairs) {
        Json row = Json::object();
        row.set("first", pair.first).set("second", pair.second).set("vessel", pair.vessel).set("at", yard::formatTime(pair.at_ms));
        row.set("apart_s", pair.apart_ms / 1000).set("device", canon::toHex(pair.device));
        row.set("confirms", Json::boolean(pair.confirms));
        row.set("first_entry", canon::toHex(pair.first_entry)).set("second_entry", canon::toHex(pair.second_entry));
        list.items.push_back(row);
        if (!options.json) {
            say(QStringLiteral("%1  %2  %3")
                    .arg(text::dateTime(pair.at_ms, options.reading()), QString::fromStdString(pair.vessel),
                        (pair.confirms ? Tr::tr("%1, and %2 as the second signature, %3 s later") : Tr::tr("%1, then %2, %3 s later"))
                            .arg(QString::fromStdString(pair.first), QString::fromStdString(pair.second))
                            .arg(pair.apart_ms / 1000)));
        }
    }
    Json out = Json::object();
    out.set("pairs", list);
    if (options.json) {
        return options.print(out);
    }
    say(Tr::tr("Signed by two people on one tablet within a minute: %1.").arg(pairs->size()));
    return kYes;
}

void addKey(CLI::App& app, Options& options, Run& run, const std::shared_ptr<Arguments>& a)
{
    CLI::App* key = app.add_subcommand("key", "people's keys and PINs")->require_subcommand(1);
    CLI::App* suspecting = key->add_subcommand("suspect", "what this key signed no longer counts");
    suspecting->add_option("person", a->person)->required();
    suspecting->add_option("--since", a->since, "UTC time; without it: from now on");
    suspecting->add_option("--why", a->why)->required();
    suspecting->add_option("--by", a->by, "an authoriser")->required();
    suspecting->callback([&options, &run, a] {
        run = [&options, a] {
            return withYard(options, yard::Access::ReadWrite, [&](yard::Yard& yard) { return suspect(options, yard, *a); });
        };
    });
    CLI::App* renew = key->add_subcommand("renew", "a new PIN and key here; PIN lines: --by's, --with's, then the new one");
    renew->add_option("person", a->person)->required();
    renew->add_option("--by", a->by, "an authoriser")->required();
    renew->add_option("--with", a->with, "another person")->required();
    renew->callback([&options, &run, a] {
        run = [&options, a] {
            return withYard(options, yard::Access::ReadWrite, [&](yard::Yard& yard) {
                const auto by = options.signing(a->by);
                const auto with = options.signing(a->with);
                return receipt(options, yard, yard.renewKey(options.signing(a->person), by, with));
            });
        };
    });
    CLI::App* recover = key->add_subcommand("recover", "an authoriser by the recovery sheet; lines: the sheet, then the new PIN");
    recover->add_option("person", a->person, "new, or enrolled before")->required();
    recover->callback([&options, &run, a] {
        run = [&options, a] {
            return withYard(options, yard::Access::ReadWrite, [&](yard::Yard& yard) {
                const std::string sheet = options.secret(Tr::tr("Recovery sheet"));
                return receipt(options, yard, yard.recover(sheet, options.signing(a->person)));
            });
        };
    });
    key->add_subcommand("together", "two people who signed on one tablet within a minute")->callback([&options, &run] {
        run = [&options] { return withYard(options, yard::Access::ReadOnly, [&](yard::Yard& yard) { return together(options, yard); }); };
    });
}

int ask(Options& options, yard::Yard& yard, const Arguments& a)
{
    yard::DeviceRequest request{a.name, {}};
    for (const std::string& person : a.people) {
        request.people.push_back(options.signing(person));
    }
    const auto code = yard.askDevice(request, a.file);
    if (!code) {
        return options.fail(code.error());
    }
    if (options.json) {
        Json out = Json::object();
        out.set("file", a.file).set("code", *code);
        return options.print(out);
    }
    say(Tr::tr("Carry %1 to a tablet that is enrolled. An authoriser enrols this one there, with the code %2.")
            .arg(QString::fromStdString(a.file), QString::fromStdString(*code)));
    return kYes;
}

void addDevice(CLI::App& app, Options& options, Run& run, const std::shared_ptr<Arguments>& a)
{
    CLI::App* device = app.add_subcommand("device", "the yard's tablets")->require_subcommand(1);
    CLI::App* asking = device->add_subcommand(
        "ask", "on a new tablet, where the entries were restored: ask to be enrolled; PIN lines: one of each person");
    asking->add_option("file", a->file, "what is asked, to be carried")->required();
    asking->add_option("--name", a->name, "of this tablet")->required();
    asking->add_option("--person", a->people, "who will sign on it; repeat for several")->required();
    asking->callback([&options, &run, a] {
        run = [&options, a] {
            return withYard(options, yard::Access::ReadWrite, [&](yard::Yard& yard) { return ask(options, yard, *a); });
        };
    });
    CLI::App* add = device->add_subcommand("add", "on a tablet that is enrolled: enrol the one that asks");
    add->add_option("file", a->file, "what was asked")->required();
    add->add_option("--code", a->code, "as the other tablet showed it")->required();
    add->add_option("--by", a->by, "an authoriser")->required();
    add->callback([&options, &run, a] {
        run = [&options, a] {
            return withYard(options, yard::Access::ReadWrite,
                [&](yard::Yard& yard) { return receipt(options, yard, yard.addDevice(a->file, a->code, options.signing(a->by))); });
        };
    });
    device->add_subcommand("list", "tablets that are enrolled")->callback([&options, &run] {
        run = [&options] {
            return withYard(options, yard::Access::ReadOnly, [&](yard::Yard& yard) {
                Json list = Json::array();
                for (const yard::DeviceShown& one : yard.devices()) {
                    Json row = Json::object();
                    row.set("id", canon::toHex(one.id)).set("name", one.name).set("this_one", Json::boolean(one.this_one));
                    list.items.push_back(row);
                    if (!options.json) {
                        say(QStringLiteral("%1%2").arg(QString::fromStdString(one.name), one.this_one ? Tr::tr(" (this one)") : QString()));
                    }
                }
                Json out = Json::object();
                out.set("devices", list);
                return options.json ? options.print(out) : static_cast<int>(kYes);
            });
        };
    });
}

} // namespace

void addKeyCommands(CLI::App& app, Options& options, Run& run)
{
    auto a = std::make_shared<Arguments>();
    addKey(app, options, run, a);
    addDevice(app, options, run, a);
}

} // namespace brimful::cli
