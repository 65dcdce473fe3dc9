// How long the findings screen takes to show one changed reading of 10,000 kept shots, from the
// moment the change is in the project until the ranking is painted anew; and to scroll a ranking of
// 300 implements and two hitters, from the event until it is painted.
//   findings_screen_benchmark [changes|scrolling]
#include <QApplication>
#include <QElapsedTimer>
#include <QScrollBar>
#include <QStyleFactory>
#include <QTest>
#include <cstdio>
#include <random>
#include <stdexcept>

#include "tests/benchmarks/support/figures.h"
#include "tests/benchmarks/support/paint_count.h"
#include "tests/core/project/project_maker.h"
#include "tests/support/must.h"
#include "ui/findings/findings_screen.h"
#include "ui/findings/ranking/ranked_view.h"

namespace {

using namespace core;
using tests::must;

constexpr int kHitters = 2;
constexpr int kChanges = 30;
constexpr int kWheelSteps = 600;
constexpr double kMostMilliseconds = 50.0;
constexpr int kPatienceMilliseconds = 600'000;
constexpr QSize kScreen{1366, 690};

struct Season {
    int implements;
    int shotsPerCell;
    double stepRpm;  ///< from implement to implement
};
constexpr Season kManyShots{50, 100, 8.0};
constexpr Season kManyImplements{300, 3, 3.0};

/// The shots of one cell, kept.
void addCell(project::Store& store, project::ClipId clip, project::CellId cell, int count,
             double meanRpm, std::mt19937_64& generator) {
    std::normal_distribution<double> noise{meanRpm, 60.0};
    std::vector<project::Shot> shots;
    for (int i = 0; i < count; ++i) {
        shots.push_back(tests::project::shotOver(clip, 5 * i, 5 * i + 4));
        shots.back().cell = cell;
    }
    for (const auto shot : must(store.addShots(shots))) {
        must(store.keepReading(tests::project::readingOf(shot, noise(generator))));
    }
}

/// A season, seeded.
void fillSeason(project::Store& store, const Season& season) {
    const auto small = tests::project::fill(store);
    std::mt19937_64 generator{20261125};
    must(store.together("Kept a season.", [&]() -> Result<void> {
        for (int i = 1; i <= season.implements; ++i) {
            const auto implement =
                must(store.addImplement({{}, "implement " + std::to_string(i), "", {}}));
            for (int h = 1; h <= kHitters; ++h) {
                const auto hitter = i == 1
                                        ? must(store.addHitter({{}, "hitter " + std::to_string(h)}))
                                        : store.snapshot()->hitters.begin()[h + 1].id;
                addCell(store, small.clip, must(store.cellFor(small.session, implement, hitter)),
                        season.shotsPerCell, 1500.0 + season.stepRpm * i + 40.0 * h, generator);
            }
        }
        return ok();
    }));
    must(store.setSetting("noticeable_step_rpm", "100"));
    must(store.setSetting("bands", "low 1600 medium 1800 high"));
}

/// Notices when the ranking is painted after it has got new rows.
class PaintWatch : public QObject {
public:
    explicit PaintWatch(const QWidget& screen)
        : m_view{screen.findChild<ui::findings::RankedView*>()} {
        connect(m_view->model(), &QAbstractItemModel::modelReset, this, [this] {
            m_hasRows = true;
            m_isPainted = false;
        });
        m_view->viewport()->installEventFilter(this);
    }
    void expectChange() { m_hasRows = m_isPainted = false; }
    [[nodiscard]] bool isPainted() const { return m_hasRows && m_isPainted; }
    [[nodiscard]] ui::findings::RankedView& view() const { return *m_view; }

protected:
    bool eventFilter(QObject*, QEvent* event) override {
        m_isPainted = m_isPainted || (event->type() == QEvent::Paint && m_hasRows);
        return false;
    }

private:
    ui::findings::RankedView* m_view;
    bool m_hasRows{};
    bool m_isPainted{};
};

/// The findings screen on a season, painted.
class Stage {
public:
    explicit Stage(const Season& season) {
        fillSeason(*store, season);
        screen.resize(kScreen);
        screen.show();
        if (!QTest::qWaitFor([&] { return watch.isPainted(); }, kPatienceMilliseconds)) {
            throw std::runtime_error("The findings are not shown.");
        }
    }

    const tests::project::TemporaryFolder folder;
    const std::unique_ptr<project::Store> store{
        must(project::Store::create(folder.path() / "season.turnmark"))};
    ui::bridge::JobRunner jobs{1};
    ui::bridge::FindingsKeeper keeper{*store, jobs};
    ui::findings::FindingsScreen screen{*store, keeper};
    PaintWatch watch{screen};
};

void measureChanges() {
    Stage stage{kManyShots};
    std::vector<double> waits;
    std::vector<double> edits;
    for (int change = 0; change < kChanges; ++change) {
        QTest::qWait(200);
        const auto shot = stage.store->snapshot()->shots.begin()[97 * change + 10].id;
        stage.watch.expectChange();
        QElapsedTimer timer;
        timer.start();
        must(stage.store->keepReading(tests::project::readingOf(shot, 1500.0 + 20.0 * change)));
        edits.push_back(1e-6 * static_cast<double>(timer.nsecsElapsed()));
        timer.start();
        while (!stage.watch.isPainted()) {
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

/// Down, and up again when the end is near.
void measureScrolling() {
    Stage stage{kManyImplements};
    auto& view = stage.watch.view();
    if (view.model()->rowCount() < kManyImplements.implements) {
        throw std::runtime_error("The ranking does not show every implement.");
    }
    const benchmarks::PaintCount paints{*view.viewport()};
    benchmarks::Waits wheel;
    const auto& bar = *view.verticalScrollBar();
    int direction = 1;
    for (int step = 0; step < kWheelSteps; ++step) {
        if (bar.value() == bar.maximum() || (step > 0 && bar.value() == bar.minimum())) {
            direction = bar.value() == bar.maximum() ? -1 : 1;
        }
        wheel.add(paints,
                  [&] { benchmarks::turnWheel(*view.viewport(), -direction * (1 + step % 8)); });
    }
    wheel.print("300 implements, two hitters, wheel to painted ranking");
    view.setFocus();
    QTest::keyClick(&view, Qt::Key_Home);
    benchmarks::Waits keys;
    for (int row = 1; row < kManyImplements.implements; ++row) {
        keys.add(paints, [&] { QTest::keyPress(&view, Qt::Key_Down); });
    }
    keys.print("300 implements, two hitters, key to painted ranking");
}

}  // namespace

int main(int argc, char** argv) {
    const QApplication application{argc, argv};
    QApplication::setStyle(QStyleFactory::create(QStringLiteral("Fusion")));
    try {
        const QStringList parts = QApplication::arguments().mid(1);
        if (parts.isEmpty() || parts.contains(QStringLiteral("changes"))) {
            measureChanges();
        }
        if (parts.isEmpty() || parts.contains(QStringLiteral("scrolling"))) {
            measureScrolling();
        }
    } catch (const std::exception& error) {
        std::fprintf(stderr, "%s\n", error.what());
        return 1;
    }
    return 0;
}
