#include "app/print/book_writer.h"

#include <QCoreApplication>

#include <algorithm>

namespace brimful::print {

namespace {

struct Words {
    Q_DECLARE_TR_FUNCTIONS(Book)
};

QString plain(const std::string& text) { return QString::fromStdString(text); }
QString safe(const QString& text) { return text.toHtmlEscaped(); }

constexpr const char* kSmall = " class=\"small\"";

// What Qt lays out and a browser too; the sizes are of paper.
constexpr const char* kStyle = R"(body { font-family: 'Brim', 'B612', sans-serif; font-size: 9.5pt; max-width: 48em; margin: 1em auto; }
h1 { font-size: 20pt; } h2 { font-size: 15pt; } h3 { font-size: 11.5pt; } h4 { font-size: 9.5pt; }
p, li { margin-top: 2px; margin-bottom: 2px; } ul { margin-top: 0px; margin-bottom: 4px; } .rule { margin-top: 9px; } .small { font-size: 8pt; color: #36424A; } a { color: #10181D; text-decoration: none; }
)";

} // namespace

void BookWriter::heading(int level, const QString& anchor, const QString& text)
{
    headings.push_back({level, anchor, text});
    html += QStringLiteral("<h%1><a name=\"%2\" id=\"%2\"></a>%3</h%1>\n").arg(level).arg(anchor, safe(text));
}

void BookWriter::line(const QString& text, const char* style)
{
    if (!text.isEmpty()) {
        html += QStringLiteral("<p%1>%2</p>\n").arg(QLatin1String(style), safe(text));
    }
}

void BookWriter::item(const QString& name, const QString& value)
{
    if (!value.isEmpty()) {
        html += QStringLiteral("<p><b>%1</b> %2</p>\n").arg(safe(name), safe(value));
    }
}

void BookWriter::list(const QString& name, const QStringList& values)
{
    if (values.isEmpty()) {
        return;
    }
    html += QStringLiteral("<p><b>%1</b></p>\n<ul>").arg(safe(name));
    for (const QString& value : values) {
        html += QStringLiteral("<li>%1</li>\n").arg(safe(value));
    }
    close("ul");
}

void BookWriter::nested(const text::Phrase& phrase) // NOLINT(misc-no-recursion): at most 8 deep
{
    html += QStringLiteral("<li>%1").arg(safe(phrase.text));
    if (!phrase.of.empty()) {
        open("ul");
        for (const text::Phrase& one : phrase.of) {
            nested(one);
        }
        close("ul");
    }
    close("li");
}

void BookWriter::phrase(const QString& name, const text::Phrase& phrase)
{
    if (!name.isEmpty()) {
        html += QStringLiteral("<p><b>%1</b></p>\n").arg(safe(name));
    }
    open("ul");
    nested(phrase);
    close("ul");
}

void BookWriter::sources(const std::vector<rules::SourceRef>& sources)
{
    for (const rules::SourceRef& source : sources) {
        line(text::sourceLine(source), kSmall);
    }
}

QString BookWriter::roles(const std::vector<rules::Index>& roles) const
{
    QStringList words;
    for (const rules::Index role : roles) {
        words.push_back(text::roleName(pack, pack.roles[role]));
    }
    return words.join(Words::tr(" or "));
}

QStringList BookWriter::events(const std::vector<rules::Index>& events) const
{
    QStringList words;
    for (const rules::Index event : events) {
        words.push_back(of("event." + pack.events[event].id + ".said"));
    }
    return words;
}

namespace {

class Whole {
public:
    explicit Whole(const Book& book)
        : m_write(book)
        , m_pack(*book.pack)
    {
    }

    QString page(const std::map<QString, int>& pages)
    {
        front();
        const QString before = std::move(m_write.html);
        m_write.html.clear();
        body();
        const QString after = std::move(m_write.html);
        m_write.html.clear();
        contents(pages);
        return QStringLiteral("<!DOCTYPE html>\n<html><head><meta "
                              "charset=\"utf-8\"><title>%1</title>\n<style>%2</style></head>\n<body>%3%4%5</body></html>\n")
            .arg(safe(title()), QLatin1String(kStyle), before, m_write.html, after);
    }

private:
    //: head of the document; %1 the rules' id, %2 their version
    [[nodiscard]] QString title() const { return Words::tr("Rules %1, version %2").arg(plain(m_pack.id)).arg(m_pack.version); }

    void front()
    {
        m_write.html += QStringLiteral("<h1>%1</h1>\n").arg(safe(title()));
        m_write.line(Words::tr("What must be proven of a retired pressure vessel before it is worked on: by whom, how, until when."));
        m_write.line(
            Words::tr("These rules never say that a vessel may be trusted. They do not replace local codes or licensed practice. A limit "
                      "marked as a proposal is to be confirmed by a licensed specialist before anybody relies on it."));
        part(Words::tr("Rules:"), m_pack.id, m_pack.version, m_pack.hash);
        for (const rules::PackPart& overlay : m_pack.overlays) {
            part(Words::tr("Tightened by:"), overlay.id + " (" + text::lawName(overlay.id).toStdString() + ")", overlay.version,
                overlay.hash);
        }
        m_write.item(Words::tr("Together:"), plain(canon::toHex(m_pack.together())));
    }
    void part(const QString& what, const std::string& id, std::int64_t version, const canon::Hash& hash)
    {
        m_write.item(what, Words::tr("%1 version %2, %3").arg(plain(id)).arg(version).arg(plain(canon::toHex(hash))));
    }

    void contents(const std::map<QString, int>& pages)
    {
        m_write.html += QStringLiteral("<h2>%1</h2>\n").arg(safe(Words::tr("Contents")));
        const std::vector<Heading> all = m_write.headings;
        for (const Heading& one : all) {
            if (one.level > 3) {
                continue;
            }
            const auto page = pages.find(one.anchor);
            const QString number = page == pages.end() ? QString() : QStringLiteral("&nbsp;&nbsp;%1").arg(page->second);
            m_write.html += QStringLiteral("<p style=\"margin-left:%1px\"><a href=\"#%2\">%3</a>%4</p>\n")
                                .arg((one.level - 2) * 24)
                                .arg(one.anchor, one.level == 2 ? QStringLiteral("<b>%1</b>").arg(safe(one.text)) : safe(one.text), number);
        }
    }

    void body()
    {
        m_write.journey();
        m_write.heading(2, QStringLiteral("hold-points"), Words::tr("Hold points"));
        m_write.line(
            Words::tr("A hold point is released by two people, and only while everything below is proven. What is not known holds it. "
                      "Nothing overrides it."));
        for (std::size_t i = 0; i < m_pack.hold_points.size(); ++i) {
            m_write.holdPoint(static_cast<rules::Index>(i));
        }
        for (std::size_t stage = 0; stage < m_pack.stages.size(); ++stage) {
            stageOf(stage);
        }
        limits();
        stops();
        barriers();
        claims();
        if (m_write.book.since) {
            m_write.changes(*m_write.book.since);
        }
        signatures();
    }

    void stageOf(std::size_t stage)
    {
        bool first = true;
        for (std::size_t i = 0; i < m_pack.steps.size(); ++i) {
            if (m_pack.steps[i].stage != stage || m_pack.steps[i].talk_of != rules::kNone) {
                continue;
            }
            if (first) {
                //: heading over the steps of one stage; %1 the stage
                m_write.heading(
                    2, plain("stage-" + m_pack.stages[stage]), Words::tr("Steps: %1").arg(m_write.of("stage." + m_pack.stages[stage])));
            }
            first = false;
            m_write.step(static_cast<rules::Index>(i));
        }
    }

    void limits()
    {
        m_write.heading(2, QStringLiteral("limits"), Words::tr("Limits"));
        for (const rules::Parameter& one : m_pack.parameters) {
            m_write.item(m_write.of("parameter." + one.id) + QLatin1Char(':'), plain(one.typed));
            if (!one.of_pack.empty()) {
                //: %1 a law; %2 what the rules themselves ask
                m_write.line(one.tightened
                        ? Words::tr("Set by: %1. The rules themselves ask %2.").arg(text::lawName(one.set_by), plain(one.of_pack))
                        : Words::tr("Asked by: %1, as by the rules themselves.").arg(text::lawName(one.set_by)));
            }
            m_write.line(
                one.tighter_is_lower ? Words::tr("A law or a shop may only lower it.") : Words::tr("A law or a shop may only raise it."),
                kSmall);
            m_write.sources(one.sources);
        }
    }

    void stops()
    {
        m_write.heading(2, QStringLiteral("stops"), Words::tr("What stops the work"));
        m_write.line(
            Words::tr("Anybody can raise it with one touch. Each one stands until it is answered by name, with what was found and done."));
        for (const rules::StopKind& stop : m_pack.stops) {
            m_write.item(m_write.of("stop." + stop.id),
                stop.refuses ? Words::tr("The vessel is refused. Nothing lifts it but a new identity, proven by documents and two people.")
                             : QString(" "));
            QString who = Words::tr("Answered by: %1").arg(m_write.roles(stop.cleared_by));
            if (!stop.cleared_with.empty()) {
                who += Words::tr(", confirmed by: %1").arg(m_write.roles(stop.cleared_with));
            }
            m_write.line(who);
            QStringList raised;
            for (const rules::EventKind& event : m_pack.events) {
                if (event.raises != rules::kNone && m_pack.stops[event.raises].id == stop.id) {
                    raised.push_back(m_write.of("event." + event.id + ".said"));
                }
            }
            for (const rules::Step& step : m_pack.steps) {
                if (step.on_fail != rules::kNone && m_pack.stops[step.on_fail].id == stop.id) {
                    raised.push_back(Words::tr("\"%1\" fails").arg(m_write.of("step." + step.id)));
                }
            }
            m_write.item(Words::tr("Raised when:"), raised.join(QLatin1Char(' ')));
        }
    }

    void barriers()
    {
        m_write.heading(2, QStringLiteral("barriers"), Words::tr("Barriers"));
        m_write.line(Words::tr("What stands between a person and harm, and which requirements stand for it."));
        for (std::size_t b = 0; b < m_pack.barriers.size(); ++b) {
            QStringList asked;
            for (const rules::HoldPoint& hold_point : m_pack.hold_points) {
                for (const auto* rules : {&hold_point.at_giving, &hold_point.require, &hold_point.stop}) {
                    for (const rules::Rule& rule : *rules) {
                        if (rule.barrier == b && !rule.at_talk) {
                            asked.push_back(
                                m_write.of("hold-point." + hold_point.id) + QStringLiteral(": ") + m_write.of("rule." + rule.id));
                        }
                    }
                }
            }
            m_write.list(m_write.of("barrier." + m_pack.barriers[b]), asked);
        }
    }

    void claims()
    {
        if (m_write.book.claims.empty()) {
            return;
        }
        m_write.heading(2, QStringLiteral("claims"), Words::tr("What is never granted"));
        m_write.line(Words::tr(
            "Written apart from the rules and proven of them: no combination of records leads to a release against one of these."));
        m_write.open("ul");
        for (const rules::Claim& claim : m_write.book.claims) {
            QStringList where;
            for (const rules::Index hold_point : claim.hold_points) {
                where.push_back(text::holdPointName(m_pack, hold_point));
            }
            m_write.html +=
                QStringLiteral("<li>%1 (%2)</li>\n").arg(safe(m_write.of("claim." + claim.id)), safe(where.join(QStringLiteral(", "))));
        }
        m_write.close("ul");
    }

    void signatures()
    {
        m_write.heading(2, QStringLiteral("signed"), Words::tr("Read and taken on"));
        m_write.line(Words::tr("I have read these rules, with their sources and marks."));
        for (int i = 0; i < 2; ++i) {
            m_write.line(Words::tr("Name, role:") + QStringLiteral(" ______________________________"));
            m_write.line(Words::tr("Date, signature:") + QStringLiteral(" ______________________________"));
        }
    }

    BookWriter m_write;
    const rules::Pack& m_pack;
};

} // namespace

QString bookHtml(const Book& book, const std::map<QString, int>& pages) { return Whole(book).page(pages); }

} // namespace brimful::print
