#include "app/print/audit_document.h"

#include <QCoreApplication>

#include <algorithm>
#include <array>
#include <set>

namespace brimful::print {

using report::BlockerShown;
using report::EvidenceShown;
using report::RequirementShown;
using rules::kNever;
using rules::kNone;
using rules::Lack;
using rules::Truth;

namespace {

struct Words {
    Q_DECLARE_TR_FUNCTIONS(Audit)
};

QString plain(const std::string& text) { return QString::fromStdString(text); }
QString shortHash(const Hash& hash) { return plain(canon::toHex(hash).substr(0, 12)); }

struct Writer {
    const report::Audit& audit;
    const rules::Pack& pack;
    const text::Reading& reading;
    Document document;

    void add(Block::Kind kind, const QString& text, int indent = 0) { document.blocks.push_back({kind, text, indent}); }
    void heading(const QString& text) { add(Block::Kind::Heading, text); }
    void line(const QString& text, int indent = 0)
    {
        if (!text.isEmpty()) {
            add(Block::Kind::Line, text, indent);
        }
    }
    void small(const QString& text, int indent) { add(Block::Kind::Small, text, indent); }

    [[nodiscard]] QString pack_(const std::string& key) const { return text::ofPack(pack, key); }
    [[nodiscard]] bool known(const std::string& key) const { return pack.strings.contains(key); }
    [[nodiscard]] QString when(std::int64_t ms) const { return text::dateTime(ms, reading); }
    [[nodiscard]] QString gate() const { return text::holdPointName(pack, pack.holdPoint(audit.hold_point)); }

    // ---- the question and its answer
    [[nodiscard]] QString answer() const
    {
        if (!audit.verified.intact()) {
            return Words::tr("HELD: the record is damaged");
        }
        switch (audit.state) {
        case rules::State::Released:
            //: %1 is a date and time
            return Words::tr("RELEASED until %1").arg(when(audit.until_ms));
        case rules::State::Refused:
            return Words::tr("REFUSED");
        case rules::State::Closed:
            return Words::tr("CLOSED OUT");
        case rules::State::Ready:
            return Words::tr("HELD: everything asked is proven, nobody has released it");
        case rules::State::Held:
            return Words::tr("HELD");
        }
        return Words::tr("HELD");
    }

    void top()
    {
        document.demo = audit.view.demo;
        document.signal = audit.state == rules::State::Released && audit.verified.intact() ? report::Signal::Warning : audit.view.signal;
        //: foot of each page; %1 is a hash, the newest entry of the vessel's record
        document.foot = Words::tr("head of the record %1").arg(plain(canon::toHex(audit.view.head)));
        //: head of each page: vessel number, hold point
        document.running = Words::tr("Audit of %1, %2").arg(plain(audit.view.number), gate());
        if (audit.view.demo) {
            add(Block::Kind::Demo, Words::tr("DEMO: a played yard. Nothing here happened."));
        }
        //: the question of the audit; %1 vessel number, %2 hold point
        add(Block::Kind::Question, Words::tr("%1: is it released for %2?").arg(plain(audit.view.number), gate()));
        add(Block::Kind::Answer, answer());
        if (!audit.verified.intact()) {
            line(Words::tr("Entries were changed or are missing. Nothing below counts until the record is whole."));
        }
        if (audit.release_entry) {
            //: %1, %2 two names, %3 when
            line(Words::tr("Given by %1, accepted by %2, %3.").arg(plain(audit.given_by), plain(audit.given_with), when(audit.given_ms)));
            small(Words::tr("entry %1").arg(shortHash(*audit.release_entry)), 0);
        }
        line(Words::tr("Asked %1.").arg(when(audit.asked_ms)));
        if (known("hold-point." + audit.hold_point + ".behind")) {
            line(Words::tr("What this hold point lets happen: %1").arg(pack_("hold-point." + audit.hold_point + ".behind")));
        }
    }

    // ---- what holds
    [[nodiscard]] QString reason(const BlockerShown& blocker) const
    {
        if (blocker.rule == "lasts") {
            return Words::tr("The release ran out.");
        }
        if (blocker.rule == "ended_by") {
            return Words::tr("The release ended.");
        }
        if (blocker.rule == "history") {
            return Words::tr("The record is not whole: entries are missing or changed.");
        }
        if (blocker.rule == "clock") {
            return Words::tr("The clock is not confirmed since the start.");
        }
        return pack_("rule." + blocker.rule);
    }

    [[nodiscard]] QString needed(const BlockerShown& blocker) const
    {
        if (blocker.needed.empty()) {
            return {};
        }
        if (pack.step(blocker.needed) != kNone) {
            //: what lifts a reason; %1 is a step's title
            return Words::tr("Step: %1").arg(text::stepTitle(pack, pack.step(blocker.needed)));
        }
        //: what lifts a reason; %1 is what was raised
        return Words::tr("To be answered by name: %1").arg(pack_("stop." + blocker.needed));
    }

    void holds()
    {
        if (audit.blockers.empty()) {
            return;
        }
        //: heading; %1 is a number
        heading(Words::tr("What holds it: %1").arg(audit.blockers.size()));
        for (const BlockerShown& blocker : audit.blockers) {
            add(Block::Kind::Strong, judged(holding(blocker), reason(blocker)));
            if (known("rule." + blocker.rule + ".lift")) {
                line(pack_("rule." + blocker.rule + ".lift"), 1);
            }
            line(needed(blocker), 1);
            if (!blocker.barrier.empty()) {
                line(Words::tr("Barrier: %1").arg(pack_("barrier." + blocker.barrier)), 1);
            }
            QString trace = plain(blocker.leaf);
            if (blocker.entry) {
                trace += (trace.isEmpty() ? QString() : QStringLiteral(", ")) + Words::tr("entry %1").arg(shortHash(*blocker.entry));
            }
            if (!trace.isEmpty()) {
                small(trace, 1);
            }
        }
    }

    // "Lapsed: Five places read 0."
    [[nodiscard]] static QString judged(const QString& verdict, const QString& rule)
    {
        //: %1 how a requirement was judged, %2 the requirement
        const QString line = Words::tr("%1: %2").arg(verdict, rule);
        return line.left(1).toUpper() + line.mid(1);
    }

    [[nodiscard]] QString holding(const BlockerShown& blocker) const
    {
        //: something that somebody raised and nobody has answered
        return pack.stop(blocker.needed) != kNone ? Words::tr("stands") : lackWords(blocker.status);
    }

    [[nodiscard]] static QString lackWords(const std::string& word)
    {
        for (int i = 0; i <= static_cast<int>(Lack::Error); ++i) {
            const auto lack = static_cast<Lack>(i);
            if (report::lackWord(lack) == word) {
                return text::lack(lack);
            }
        }
        return plain(word);
    }

    // ---- requirements with their evidence
    [[nodiscard]] static QString listTitle(rules::List list)
    {
        switch (list) {
        case rules::List::AtGiving:
            return Words::tr("Judged once, when the release is given");
        case rules::List::Require:
            return Words::tr("Judged when given and at every look");
        case rules::List::Stop:
            return Words::tr("What must not stand");
        case rules::List::Lasts:
        case rules::List::Ended:
        case rules::List::History:
        case rules::List::Clock:
            return Words::tr("The release, the record and the clock");
        }
        return {};
    }

    [[nodiscard]] static QString verdict(const RequirementShown& one)
    {
        const bool stop = one.list == rules::List::Stop;
        switch (one.truth) {
        case Truth::True:
            return stop ? Words::tr("it stands, and holds") : Words::tr("proven");
        case Truth::False:
            return stop ? Words::tr("does not stand") : Words::tr("not so, and holds");
        case Truth::Unknown:
            return Words::tr("not known, and holds");
        }
        return {};
    }

    void requirements()
    {
        std::optional<rules::List> list;
        for (const RequirementShown& one : audit.requirements) {
            if (list != one.list) {
                list = one.list;
                heading(listTitle(one.list));
            }
            add(Block::Kind::Strong, judged(verdict(one), pack_("rule." + one.rule)));
            line(Words::tr("Barrier: %1").arg(pack_("barrier." + one.barrier)), 1);
            for (const EvidenceShown& evidence : one.evidence) {
                evidence.fact.empty() ? record(evidence) : value(evidence);
            }
            for (const rules::SourceRef& source : one.sources) {
                small(Words::tr("Source: %1").arg(text::sourceLine(source)), 1);
            }
        }
    }

    void record(const EvidenceShown& evidence)
    {
        const QString title = text::stepTitle(pack, pack.step(evidence.step));
        if (evidence.person.empty() && evidence.entry.isZero()) {
            line(Words::tr("%1: %2").arg(title, text::lack(evidence.lack)), 1);
            return;
        }
        QString who = Words::tr("%1 (%2)").arg(plain(evidence.person), text::roleName(pack, evidence.role));
        if (!evidence.second.empty()) {
            who = Words::tr("%1 and %2")
                      .arg(who, Words::tr("%1 (%2)").arg(plain(evidence.second), text::roleName(pack, evidence.second_role)));
        }
        //: a record: step, who, when, how old
        line(Words::tr("%1: %2, %3, %4 old").arg(title, who, when(evidence.at_ms), text::span(evidence.age_ms, reading)), 1);
        QStringList rest;
        rest << (evidence.lack == Lack::None && evidence.lapses_ms != kNever ? Words::tr("counts until %1").arg(when(evidence.lapses_ms))
                                                                             : text::lack(evidence.lack));
        if (!evidence.instrument.empty()) {
            rest << Words::tr("with %1").arg(plain(evidence.instrument));
        }
        rest << Words::tr("entry %1").arg(shortHash(evidence.entry));
        small(rest.join(QStringLiteral(", ")), 2);
    }

    [[nodiscard]] rules::Index factOf(const EvidenceShown& evidence, std::string& member) const
    {
        const rules::Index step = pack.step(evidence.step);
        const std::size_t dot = evidence.fact.rfind('.');
        member = dot == std::string::npos ? std::string() : evidence.fact.substr(0, dot);
        const std::string key = dot == std::string::npos ? evidence.fact : evidence.fact.substr(dot + 1);
        const auto found = std::ranges::find_if(pack.facts,
            [&](const rules::Fact& fact) { return fact.step == step && fact.key == key && (fact.reg != kNone) == !member.empty(); });
        return found == pack.facts.end() ? kNone : static_cast<rules::Index>(found - pack.facts.begin());
    }

    void value(const EvidenceShown& evidence)
    {
        if (evidence.value.empty()) {
            return;
        }
        std::string member;
        const rules::Index fact = factOf(evidence, member);
        const QString ask = fact != kNone && known("fact." + pack.facts[fact].id) ? text::factAsk(pack, fact) : plain(evidence.fact);
        const QString said =
            fact != kNone && !pack.facts[fact].options.empty() ? text::optionWord(pack, fact, evidence.value) : plain(evidence.value);
        if (member.empty()) {
            line(QStringLiteral("%1 %2").arg(ask, said), 2);
        } else {
            const QString place = known("place." + member) ? pack_("place." + member) : plain(member);
            line(QStringLiteral("%1: %2 %3").arg(place, ask, said), 2);
        }
        if (evidence.photo) {
            line(sentence(text::photograph(*evidence.photo, evidence.of_vessel)), 3);
        }
    }

    [[nodiscard]] static QString sentence(const QString& words) { return words.left(1).toUpper() + words.mid(1) + u'.'; }

    // ---- every photograph of the vessel: first those of which least is known
    [[nodiscard]] static bool isWeak(const ledger::PhotoNote& note) { return !note.by_camera && !(note.found && note.found->tag); }
    void photographs()
    {
        int all = 0;
        int files = 0;
        int bare = 0;
        for (const report::TrailLine& one : audit.trail) {
            for (const auto& [file, note] : one.photos) {
                ++all;
                files += note.by_camera ? 0 : 1;
                bare += isWeak(note) ? 1 : 0;
            }
        }
        if (all == 0) {
            return;
        }
        heading(Words::tr("Photographs"));
        //: numbers of photographs
        line(Words::tr("Of %1 the record tells how they came: %2 from a file; %3 from a file and without this vessel's tag.")
                 .arg(all)
                 .arg(files)
                 .arg(bare));
        for (const bool first : {true, false}) {
            for (const report::TrailLine& one : audit.trail) {
                for (const auto& [file, note] : one.photos) {
                    if (isWeak(note) == first) {
                        photograph(one, file, note);
                    }
                }
            }
        }
    }

    void photograph(const report::TrailLine& one, const Hash& file, const ledger::PhotoNote& note)
    {
        const QString words = sentence(text::photograph(note, true));
        add(isWeak(note) ? Block::Kind::Strong : Block::Kind::Line, words);
        //: of a photograph: when, which step, who signed, the first letters of its file's name
        const QString of =
            Words::tr("%1  %2, %3, file %4")
                .arg(when(one.true_ms.value_or(one.at.wall_ms)), text::trailTitle(pack, one), plain(one.person), shortHash(file));
        small(one.counts ? of : of + u' ' + Words::tr("(does not count)"), 1);
    }

    // ---- what was verified, and what it cannot know
    void verified()
    {
        heading(Words::tr("What was verified"));
        const ledger::Verification& v = audit.verified;
        //: %1 entries, %2 signatures
        line(v.intact()
                ? Words::tr("%1 entries and %2 signatures were checked again from their bytes: whole.").arg(v.entries).arg(v.signatures)
                : Words::tr("%1 entries were checked again from their bytes. Not whole:").arg(v.entries));
        for (const ledger::Finding& finding : v.findings) {
            //: a flaw of the record: row number, sentence, entry
            line(Words::tr("Row %1: %2 (entry %3)").arg(finding.row).arg(text::flaw(finding), shortHash(finding.entry)), 1);
        }
        if (v.copied) {
            line(Words::tr("The folder could not be written; a copy was checked."));
        }
        rulesInForce();
        line(clock());
        if (audit.recovery_used) {
            line(Words::tr("The recovery sheet of this yard was used once to enrol an authoriser."));
        }
        //: %1 the yard's name, %2 its owner
        line(audit.owner.empty() ? Words::tr("Yard: %1").arg(plain(audit.yard))
                                 : Words::tr("Yard: %1, %2").arg(plain(audit.yard), plain(audit.owner)));
    }

    void parts(const std::vector<rules::PackPart>& parts)
    {
        for (const rules::PackPart& part : parts) {
            //: id and version of a set of rules, and its hash
            small(Words::tr("%1 version %2, %3").arg(plain(part.id)).arg(part.version).arg(plain(canon::toHex(part.hash))), 1);
        }
    }
    void rulesInForce()
    {
        //: %1 a country or "all of them together"
        line(Words::tr("Law: %1").arg(text::lawName(audit.law)));
        line(Words::tr("Rules in force:"));
        parts(audit.parts);
        if (audit.ruled.size() > 1) {
            line(Words::tr("Since the vessel came other rules were in force too:"));
            for (const report::PacksRuled& one : audit.ruled) {
                //: %1 when, %2 a law
                line(Words::tr("from %1, law: %2").arg(when(one.from_ms), text::lawName(one.law)), 1);
                parts(one.parts);
            }
        }
    }

    [[nodiscard]] QString clock() const
    {
        if (audit.clock == "confirmed") {
            return Words::tr("Clock: date and time were confirmed by a person since the start.");
        }
        if (audit.clock == "as-if") {
            return Words::tr("Clock: asked as if it were the time above; this is not a look at the vessel now.");
        }
        if (audit.clock == "suspect") {
            return Words::tr("Clock: not to be believed; ages are not known.");
        }
        return Words::tr("Clock: nobody has confirmed date and time since the start.");
    }

    void watchOut()
    {
        std::set<std::string> ids;
        const rules::Index index = pack.holdPoint(audit.hold_point);
        for (const rules::Step& step : pack.steps) {
            if (index != kNone && step.stage == pack.hold_points[index].stage) {
                ids.insert(step.cautions.begin(), step.cautions.end());
            }
        }
        if (!ids.empty()) {
            heading(Words::tr("What to watch in this stage"));
            for (const std::string& id : ids) {
                line(pack_("caution." + id));
            }
        }
        heading(Words::tr("What this cannot know"));
        for (const QString& caution : text::cautions()) {
            line(caution);
        }
    }

    void trail()
    {
        if (audit.trail.empty()) {
            return;
        }
        heading(Words::tr("Trail"));
        for (const report::TrailLine& one : audit.trail) {
            QString words = Words::tr("%1  %2").arg(when(one.true_ms.value_or(one.at.wall_ms)), text::trailTitle(pack, one));
            if (!one.person.empty()) {
                words += QStringLiteral(", ") + plain(one.person);
            }
            if (const QString answered = text::ownAnswer(pack, one, reading); !answered.isEmpty()) {
                words += QStringLiteral(". ") + answered;
            }
            if (!one.what.empty()) {
                words += QStringLiteral(": ") + plain(one.what);
            }
            if (one.failing) {
                words += QStringLiteral(" ") + Words::tr("(outside the limit)");
            }
            if (!one.counts) {
                words += QStringLiteral(" ") + Words::tr("(does not count)");
            }
            small(words + QStringLiteral("  ") + shortHash(one.hash), 0);
        }
    }
};

} // namespace

Document auditDocument(const report::Audit& audit, const rules::Pack& pack, const text::Reading& reading)
{
    Writer writer{audit, pack, reading, {}};
    writer.top();
    writer.holds();
    writer.add(Block::Kind::Drawing, {});
    writer.requirements();
    writer.photographs();
    writer.verified();
    writer.watchOut();
    writer.trail();
    return writer.document;
}

QString demoWord() { return Words::tr("DEMO"); }
//: foot of a page
QString pageWord(int page, int pages) { return Words::tr("page %1 of %2").arg(page).arg(pages); }

} // namespace brimful::print
