// How long the findings screen takes to show one changed reading of 10,000 kept shots: from the
// moment the change is in the project until chart and table are painted anew.
#include <QApplication>
#include <QElapsedTimer>
#include <QStyleFactory>
#include <QTableView>
#include <QTest>
#include <cstdio>
#include <random>
#include <stdexcept>

#include "tests/benchmarks/support/figures.h"
#include "tests/core/project/project_maker.h"
#include "tests/support/must.h"
#include "ui/chart/ranked_chart.h"
#include "ui/findings/findings_screen.h"

namespace {

using namespace core;
using tests::must;

constexpr int kImplements = 50;
constexpr int kHitters = 2;
constexpr int kShotsPerCell = 100;
constexpr int kChanges = 30;
constexpr double kMostMilliseconds = 50.0;
constexpr int kPatienceMilliseconds = 60'000;
constexpr QSize kScreen{1366, 690};

/// The shots of one cell, kept.
void addCell(project::Store& store, project::ClipId clip, project::CellId cell, double meanRpm,
             std::mt19937_64& generator) {
    std::normal_distribution<double> noise{meanRpm, 60.0};
    std::vector<project::Shot> shots;
    for (int i = 0; i < kShotsPerCell; ++i) {
        shots.push_back(tests::project::shotOver(clip, 5 * i, 5 * i + 4));
        shots.back().cell = cell;
    }
    for (const auto shot : must(store.addShots(shots))) {
        must(store.keepReading(tests::project::readingOf(shot, noise(generator))));
    }
}

/// A season, seeded.
void fillSeason(project::Store& store) {
    const auto small = tests::project::fill(store);
    std::mt19937_64 generator{20261125};
    must(store.together("Kept a season.", [&]() -> Result<void> {
        for (int i = 1; i <= kImplements; ++i) {
            const auto implement =
                must(store.addImplement({{}, "implement " + std::to_string(i), "", {}}));
            for (int h = 1; h <= kHitters; ++h) {
                const auto hitter = i == 1
                                        ? must(store.addHitter({{}, "hitter " + std::to_string(h)}))
                                        : store.snapshot()->hitters.begin()[h + 1].id;
                addCell(store, small.clip, must(store.cellFor(small.session, implement, hitter)),
                        1500.0 + 8.0 * i + 40.0 * h, generator);
            }
        }
        return ok();
    }));
    must(store.setSetting("noticeable_step_rpm", "100"));
    must(store.setSetting("bands", "low 1600 medium 1800 high"));
}

/// Notices when chart and table are painted after the table has got new rows.
class PaintWatch : public QObject {
public:
    explicit PaintWatch(const QWidget& screen)
        : m_table{screen.findChild<QTableView*>(QStringLiteral("ranked"))},
          m_plot{screen.findChild<ui::chart::RankedChart*>()->plot()} {
        connect(m_table->model(), &QAbstractItemModel::modelReset, this, [this] {
            m_hasRows = true;
            m_isTablePainted = m_isPlotPainted = false;
        });
        m_table->viewport()->installEventFilter(this);
        m_plot->installEventFilter(this);
    }
    void expectChange() { m_hasRows = m_isTablePainted = m_isPlotPainted = false; }
    [[nodiscard]] bool isPainted() const {
        return m_hasRows && m_isTablePainted && m_isPlotPainted;
    }

protected:
    bool eventFilter(QObject* watched, QEvent* event) override {
        if (event->type() == QEvent::Paint && m_hasRows) {
            (watched == m_plot ? m_isPlotPainted : m_isTablePainted) = true;
        }
        return false;
    }

private:
    QTableView* m_table;
    QWidget* m_plot;
    bool m_hasRows{};
    bool m_isTablePainted{};
    bool m_isPlotPainted{};
};

void measure() {
    const tests::project::TemporaryFolder folder;
    const auto store = must(project::Store::create(folder.path() / "season.turnmark"));
    fillSeason(*store);
    ui::bridge::JobRunner jobs{1};
    ui::bridge::FindingsKeeper keeper{*store, jobs};
    ui::findings::FindingsScreen screen{*store, jobs, keeper};
    screen.resize(kScreen);
    PaintWatch watch{screen};
    screen.show();
    if (!QTest::qWaitFor([&] { return watch.isPainted(); }, kPatienceMilliseconds)) {
        throw std::runtime_error("The findings are not shown.");
    }
    std::vector<double> waits;
    std::vector<double> edits;
    for (int change = 0; change < kChanges; ++change) {
        QTest::qWait(200);
        const auto shot = store->snapshot()->shots.begin()[97 * change + 10].id;
        watch.expectChange();
        QElapsedTimer timer;
        timer.start();
        must(store->keepReading(tests::project::readingOf(shot, 1500.0 + 20.0 * change)));
        edits.push_back(1e-6 * static_cast<double>(timer.nsecsElapsed()));
        timer.start();
        while (!watch.isPainted()) {
            QCoreApplication::processEvents(QEventLoop::AllEvents | QEventLoop::WaitForMoreEvents);
        }
        waits.push_back(1e-6 * static_cast<double>(timer.nsecsElapsed()));
    }
    benchmarks::printFigure("one edit, with the disk, 10,000 shots, median, ms",
                            benchmarks::median(edits));
    benchmarks::printFigure("from edit to painted findings, 10,000 shots, median, ms",
                            benchmarks::median(waits), benchmarks::atMost(kMostMilliseconds));
    benchmarks::printFigure("from edit to painted findings, 10,000 shots, slowest, ms",
                            benchmarks::quantile(waits, 1.0));
}

}  // namespace

int main(int argc, char** argv) {
    const QApplication application{argc, argv};
    QApplication::setStyle(QStyleFactory::create(QStringLiteral("Fusion")));
    try {
        measure();
    } catch (const std::exception& error) {
        std::fprintf(stderr, "%s\n", error.what());
        return 1;
    }
    return 0;
}
