// The pack's conditions as sentences.
#include "app/text/tr.h"
#include "app/text/words.h"

#include "core/quantity/recorded.h"

namespace brimful::text {

using rules::Condition;
using rules::Index;
using rules::Op;

namespace {

class Teller {
    Q_DECLARE_TR_FUNCTIONS(brimful::text) // or its sentences would be looked for under its own name
public:
    const rules::Pack& pack;
    const Reading& reading;

    [[nodiscard]] QString step(Index index) const { return stepTitle(pack, index); }

    // "Fill 2 to the brim, second signature"
    [[nodiscard]] QString signature(rules::SignatureRef ref) const
    {
        const Index index = ref / 2;
        const QString title = pack.steps[index].talk_of == rules::kNone ? step(index) : holdPointName(pack, pack.steps[index].talk_of);
        //: whoever confirmed a step; %1 the step's title
        return ref % 2 == 1 ? tr("%1, second signature").arg(title) : title;
    }

    [[nodiscard]] QString ask(Index fact) const
    {
        const rules::Fact& one = pack.facts[fact];
        QString words = factAsk(pack, fact);
        if (one.kind == rules::FactKind::Tag) {
            words = tr("the vessel's tag:");
        } else if (const Index talk = pack.steps[one.step].talk_of; talk != rules::kNone) {
            words = ofPack(pack, "question." + pack.hold_points[talk].id + "." + one.key);
        }
        if (words.endsWith(QLatin1Char('.'))) {
            words.chop(1);
        }
        //: a value that every row of a table gives; %1 what is asked
        return one.reg == rules::kNone ? words : tr("in every row, %1").arg(words);
    }

    [[nodiscard]] static QString sentence(const QString& words)
    {
        return words.endsWith(QLatin1Char('?')) || words.endsWith(QLatin1Char(':')) ? words : words + QLatin1Char('.');
    }

    [[nodiscard]] QString count(Index fact, std::int64_t value) const
    {
        const rules::Fact& one = pack.facts[fact];
        return one.unit.empty() || one.unit == "1" ? reading.locale.toString(static_cast<qlonglong>(value))
                                                   : quantity(quantity::siOf(value, one.unit), one.dimension, reading);
    }

    [[nodiscard]] QString options(Index fact, std::int64_t bits) const
    {
        const rules::Fact& one = pack.facts[fact];
        QStringList words;
        for (std::size_t i = 0; i < one.options.size(); ++i) {
            if (((bits >> i) & 1) == 0) {
                continue;
            }
            const std::string& option = one.options[i];
            words.push_back(one.kind == rules::FactKind::Tag ? option == "newest" ? tr("the newest") : QString::fromStdString(option)
                    : option == "equal" ? tr("the same again")
                                                             : optionWord(pack, fact, option));
        }
        //: between words that may all be the answer
        return words.join(tr(" or "));
    }

    [[nodiscard]] QString roles(std::int64_t bits) const
    {
        QStringList words;
        for (std::size_t i = 0; i < pack.roles.size(); ++i) {
            if (((bits >> i) & 1) != 0) {
                words.push_back(roleName(pack, pack.roles[i]));
            }
        }
        return words.join(tr(" or "));
    }

    [[nodiscard]] static QString actor(std::uint16_t which)
    {
        return static_cast<rules::Actor>(which) == rules::Actor::By ? tr("whoever gives the release") : tr("whoever accepts the release");
    }

    [[nodiscard]] QString leaf(const Condition& one) const
    {
        switch (one.op) {
        case Op::Passed:
            //: %1 a step's title
            return tr("\"%1\" was done, is within its limits and counts").arg(step(one.a));
        case Op::Failed:
            return tr("\"%1\" failed").arg(step(one.a));
        case Op::Is:
            //: %1 what is asked, %2 the answers that do
            return tr("%1 Answer: %2").arg(sentence(ask(one.a)), options(one.a, one.low));
        case Op::AtMost:
            return tr("%1 at most %2").arg(ask(one.a), count(one.a, one.high));
        case Op::AtLeast:
            return tr("%1 at least %2").arg(ask(one.a), count(one.a, one.low));
        case Op::Between:
            return tr("%1 from %2 to %3").arg(ask(one.a), count(one.a, one.low), count(one.a, one.high));
        case Op::DifferentPeople:
            //: %1, %2 signatures
            return tr(R"(two different people signed "%1" and "%2")").arg(signature(one.a), signature(one.b));
        case Op::NotBy:
            //: %1 a person's part, %2 a signature
            return tr("%1 did not sign \"%2\"").arg(actor(one.b), signature(one.a));
        case Op::HasRole:
            return one.b == 1 ? tr("%1 is %2").arg(actor(one.a), roles(one.low))
                              : tr("\"%1\" was signed by: %2").arg(signature(one.a), roles(one.low));
        case Op::After:
            //: %1, %2 steps' titles
            return tr(R"("%1" was recorded knowing "%2")").arg(step(one.a), step(one.b));
        case Op::NotSince:
            //: %1 an event, %2 a step's title
            return tr("not since \"%2\": %1").arg(ofPack(pack, "event." + pack.events[one.b].id + ".said"), step(one.a));
        case Op::Clear:
            //: %1 a reason to stop
            return tr("nothing stands of: %1").arg(ofPack(pack, "stop." + pack.stops[one.a].id));
        case Op::Given:
            return tr("released before: %1").arg(holdPointName(pack, one.a));
        case Op::All:
        case Op::Any:
        case Op::Not:
        case Op::KOf:
            break;
        }
        return {};
    }

    [[nodiscard]] Phrase tell(std::size_t at) const // NOLINT(misc-no-recursion): at most 8 deep
    {
        const Condition& one = pack.conditions[at];
        Phrase out;
        const std::size_t end = at + one.size;
        for (std::size_t child = at + 1; child < end; child += pack.conditions[child].size) {
            out.of.push_back(tell(child));
        }
        switch (one.op) {
        case Op::All:
            out.text = tr("all of these:");
            break;
        case Op::Any:
            out.text = tr("at least one of these:");
            break;
        case Op::KOf:
            out.text = tr("at least %1 of these:").arg(one.low);
            break;
        case Op::Not:
            if (const Condition& inside = pack.conditions[at + 1]; inside.op == Op::Clear) {
                //: %1 a reason to stop
                return {tr("it stands, not answered by name: %1").arg(ofPack(pack, "stop." + pack.stops[inside.a].id)), {}};
            }
            out.text = tr("not so:");
            break;
        case Op::Passed:
        case Op::Failed:
        case Op::Is:
        case Op::AtMost:
        case Op::AtLeast:
        case Op::Between:
        case Op::DifferentPeople:
        case Op::NotBy:
        case Op::HasRole:
        case Op::After:
        case Op::NotSince:
        case Op::Clear:
        case Op::Given:
            out.text = leaf(one);
            break;
        }
        if (out.of.size() == 1 && one.op != Op::Not) {
            return std::move(out.of.front());
        }
        return out;
    }
};

} // namespace

Phrase conditionWords(const rules::Pack& pack, Index start, const Reading& reading) { return Teller{pack, reading}.tell(start); }

} // namespace brimful::text
