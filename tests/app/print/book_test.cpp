// The rules as a document, read back from its PDF: every hold point, step, limit, source and mark of the pack stands in it.
#include "app/print/audit_document.h"
#include "app/print/book.h"
#include "tests/app/print/sample_audit.h"
#include "tests/support/suite.h"

#include <QProcess>
#include <QTest>

#include <set>

using namespace brimful;

namespace {

QString words(QString text) { return text.simplified().remove(QLatin1Char(' ')); }

// The words of each page, without its head and foot.
QStringList pagesOf(const QString& pdf, const rules::Pack& pack)
{
    QProcess process;
    process.start("pdftotext", {"-raw", pdf, "-"});
    if (!process.waitForFinished(60'000)) {
        return {};
    }
    QStringList pages = QString::fromUtf8(process.readAllStandardOutput()).split(QLatin1Char('\f'), Qt::SkipEmptyParts);
    for (int i = 0; i < pages.size(); ++i) {
        pages[i] = words(pages[i]);
        pages[i].remove(words(QStringLiteral("Rules %1, version %2").arg(QString::fromStdString(pack.id)).arg(pack.version)
            + print::pageWord(i + 1, static_cast<int>(pages.size()))));
        if (i > 0) { // the first page names it too
            pages[i].remove(QString::fromStdString(canon::toHex(pack.together())));
        }
    }
    return pages;
}

rules::PackSource baseSource() { return rules::carriedRuling("base")->pack; }

std::vector<rules::Claim> claimsOf(const rules::PackSource& source, const rules::Pack& pack)
{
    auto claims = rules::loadClaims(source, pack);
    return claims ? std::move(*claims) : std::vector<rules::Claim>();
}

} // namespace

class BookTest : public QObject {
    Q_OBJECT
    rules::Pack m_pack;
    std::vector<rules::Claim> m_claims;
    QStringList m_pages;
    QString m_all;

    void stands(const QString& text, const std::string& of)
    {
        QVERIFY2(!text.isEmpty(), of.c_str());
        QVERIFY2(m_all.contains(words(text)), qPrintable(QString::fromStdString(of) + ": " + text));
    }
    void stands(const std::vector<rules::SourceRef>& sources, const std::string& of)
    {
        for (const rules::SourceRef& source : sources) {
            stands(text::sourceLine(source), of); // with its mark
        }
    }

private slots:
    void initTestCase()
    {
        print::loadFonts();
        m_pack = *rules::load(*rules::carriedRuling("au"));
        m_claims = claimsOf(baseSource(), m_pack);
        QVERIFY(m_claims.size() >= 40);
        const QString pdf = QStringLiteral(BRIMFUL_BINARY_DIR "/pictures/rules.pdf");
        const print::Book book{&m_pack, m_claims, std::nullopt, test::eastCoast()};
        QVERIFY(print::writeBookPdf(pdf.toStdString(), book));
        m_pages = pagesOf(pdf, m_pack);
        QVERIFY(m_pages.size() > 10);
        m_all = m_pages.join(QString());
    }

    void holdPointsWithTheirBarriers()
    {
        for (std::size_t i = 0; i < m_pack.hold_points.size(); ++i) {
            const rules::HoldPoint& one = m_pack.hold_points[i];
            stands("Hold point: " + text::holdPointName(m_pack, static_cast<rules::Index>(i)), one.id);
            stands(text::ofPack(m_pack, "hold-point." + one.id + ".behind"), one.id);
            stands(one.sources, one.id);
            for (const auto* list : {&one.at_giving, &one.require, &one.stop}) {
                for (const rules::Rule& rule : *list) {
                    if (!rule.at_talk) {
                        stands(text::ofPack(m_pack, "rule." + rule.id)
                                + "Barrier:" + text::ofPack(m_pack, "barrier." + m_pack.barriers[rule.barrier]),
                            rule.id);
                        stands(text::ofPack(m_pack, "rule." + rule.id + ".lift"), rule.id);
                        stands(rule.sources, rule.id);
                    }
                }
            }
            for (const rules::Question& question : one.questions) {
                stands(text::ofPack(m_pack, "question." + one.id + "." + question.id), question.id);
            }
            for (const rules::Index event : one.ended_by) {
                stands(text::ofPack(m_pack, "event." + m_pack.events[event].id + ".said"), one.id);
            }
        }
    }

    void stepsWithEverythingTheyAsk()
    {
        for (std::size_t i = 0; i < m_pack.steps.size(); ++i) {
            const rules::Step& one = m_pack.steps[i];
            if (one.talk_of != rules::kNone) {
                continue;
            }
            stands(text::stepTitle(m_pack, static_cast<rules::Index>(i)) + text::stepWhy(m_pack, static_cast<rules::Index>(i)), one.id);
            for (const rules::Index fact : one.facts) {
                stands(text::factAsk(m_pack, fact), one.id);
            }
            for (const rules::Index table : one.registers) {
                for (const rules::Index column : m_pack.registers[table].columns) {
                    stands(text::factAsk(m_pack, column), one.id);
                }
            }
            for (const std::string& caution : one.cautions) {
                stands(text::ofPack(m_pack, "caution." + caution), one.id);
            }
            for (const rules::Cannot& reason : one.cannot) {
                stands(text::ofPack(m_pack, "cannot." + one.id + "." + reason.id + ".then"), one.id);
            }
            if (one.life_ms > 0) {
                stands("Counts for: " + text::span(one.life_ms, test::eastCoast()), one.id);
            }
            stands(one.sources, one.id);
        }
    }

    void limitsWithSourceAndMark()
    {
        std::set<rules::Mark> marks;
        for (const rules::Parameter& one : m_pack.parameters) {
            stands(text::ofPack(m_pack, "parameter." + one.id) + ": " + QString::fromStdString(one.typed), one.id);
            stands(one.sources, one.id);
            for (const rules::SourceRef& source : one.sources) {
                marks.insert(source.mark);
            }
        }
        QVERIFY(marks.size() >= 4);
        stands("Set by: Australia. The rules themselves ask 11 m.", "hot-distance");
        stands(QString::fromStdString(canon::toHex(m_pack.together())), "hash");
    }

    void claimsAndStops()
    {
        for (const rules::Claim& claim : m_claims) {
            stands(text::ofPack(m_pack, "claim." + claim.id), claim.id);
        }
        for (const rules::StopKind& stop : m_pack.stops) {
            stands(text::ofPack(m_pack, "stop." + stop.id), stop.id);
        }
    }

    // The contents lead to the page on which the heading stands.
    void contentsNameThePage()
    {
        for (const char* step : {"identity", "brim", "first-fire"}) {
            const rules::Index index = m_pack.step(step);
            const QString title = words(text::stepTitle(m_pack, index));
            int page = 0;
            for (int i = 0; i < m_pages.size(); ++i) {
                page = m_pages[i].contains(title + words(text::stepWhy(m_pack, index))) ? i + 1 : page;
            }
            QVERIFY(page > 1);
            const bool named = m_pages.mid(0, page - 1).join(QString()).contains(title + QString::number(page));
            QVERIFY2(named, qPrintable(title + QString::number(page)));
        }
    }

    // What changed since an older version, in words and by an example.
    void whatChanged()
    {
        rules::PackSource older = baseSource();
        std::string& head = older.files.at("pack.json");
        const auto at = head.find("\"30 min\""); // the first: how long readings count
        head.replace(at, 8, "\"2 h\"");
        const auto before = rules::load(older, {});
        const rules::Pack now = *rules::load(*rules::carriedRuling("base"));
        QVERIFY(before);
        print::Book book{&now, {}, std::nullopt, test::eastCoast()};
        book.since = print::Since{&*before, "base 0", rules::newlyGranted(now, *before, true), rules::newlyGranted(*before, now, true)};
        const QString html = print::bookHtml(book);
        QVERIFY(html.contains("What changed since base 0"));
        QVERIFY(html.contains("now 30 min; before 2 h"));
        QVERIFY(book.since->more.empty());
        QVERIFY(!book.since->less.empty());
        const auto examples = html.indexOf("Granted before and not now");
        QVERIFY(examples > 0);
        QVERIFY(html.indexOf(text::ofPack(now, "step.readings-wet"), examples) > 0); // somebody records it, long before
        QVERIFY(html.indexOf("go by.", examples) > 0);
        // Against itself nothing changed.
        book.since = print::Since{&now, "base 1", {}, {}};
        QVERIFY(print::bookHtml(book).contains("Nothing in the steps, the hold points and the limits."));
    }
};

BRIMFUL_SUITE(BookTest);
#include "book_test.moc"
