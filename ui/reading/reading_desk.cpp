#include "ui/reading/reading_desk.h"

#include <QLineF>
#include <algorithm>
#include <cmath>

#include "core/base/expects.h"
#include "ui/reading/shot/shot_marks.h"
#include "ui/reading/shot/shot_reading.h"

namespace ui::reading {

using core::project::ShotId;
using core::project::Store;
using core::spin::MarkSet;
using core::timebase::FrameIndex;

namespace {

/// Row length before anything is known: a neutral place to begin turning the handle from.
constexpr double kNeutralFramesPerRow = 8.0;
/// A row shorter than this shows one picture a row and says nothing.
constexpr double kMinFramesPerRow = 1.2;

std::optional<Method> methodKept(const Store& store, const core::project::Shot& shot) {
    const auto snapshot = store.snapshot();
    const auto* kept = shot.counting ? snapshot->readings.find(*shot.counting) : nullptr;
    const bool isFit = kept != nullptr && kept->method == core::project::ReadingMethod::RotationFit;
    return isFit ? std::optional{Method::Pictures} : std::nullopt;
}

}  // namespace

ReadingDesk::ReadingDesk(Store& store, PictureReader* reader, QObject* parent)
    : QObject{parent}, m_store{store}, m_reader{reader}, m_rowSeconds{kNeutralFramesPerRow} {
    if (reader != nullptr) {
        connect(reader, &PictureReader::changed, this, &ReadingDesk::onPicturesRead);
    }
    m_listening = store.listen([this](const Store::Change& change) { onStoreChange(change); });
}

ReadingDesk::~ReadingDesk() = default;

const ShotView& ReadingDesk::view() const {
    CORE_EXPECTS(m_view.has_value());
    return *m_view;
}

void ReadingDesk::openShot(ShotId shot) {
    m_second.reset();
    open(shot);
}

void ReadingDesk::openSecond(core::project::SecondReadingId second) {
    const auto snapshot = m_store.snapshot();
    if (const auto* found = snapshot->secondReadings.find(second)) {
        m_second = second;
        open(found->shot);
    }
}

void ReadingDesk::setNamesHidden(bool hidden) {
    if (hidden != m_areNamesHidden) {
        m_areNamesHidden = hidden;
        if (m_view) {
            refreshView();
        }
    }
}

void ReadingDesk::open(ShotId shot) {
    if (m_view) {
        Q_EMIT leavingFrame();
    }
    wantPictures(shot);  // first, so that what is known is shown at once
    rebuild(shot);
    if (!m_view) {
        return;
    }
    // The row length of another shot would suggest its rate.
    m_rowOrigin = RowOrigin::Neutral;
    m_rowSeconds = kNeutralFramesPerRow * m_view->frameSeconds;
    adoptRowLength();
    m_frame = m_view->tellingFrame();
    m_openedAt = m_frame;
    m_farBall.reset();
    m_chosenMethod = methodKept(m_store, m_view->shot);
    Q_EMIT failed({});
    Q_EMIT shotOpened(shot);
    Q_EMIT viewChanged();
    Q_EMIT rowChanged();
    Q_EMIT frameChanged();
}

void ReadingDesk::rebuild(ShotId shot) {
    const auto snapshot = m_store.snapshot();
    const auto* second = m_second ? snapshot->secondReadings.find(*m_second) : nullptr;
    if (m_second && second == nullptr) {
        m_view.reset();
        Q_EMIT shotClosed();
        Q_EMIT failed(tr("This second reading was taken back."));
        return;
    }
    auto view = second != nullptr ? makeBlindView(m_store, *second, m_reader)
                                  : makeShotView(m_store, shot, m_reader);
    if (view) {
        m_view = std::move(view).value();
        if (m_areNamesHidden && !m_second) {
            hideNames(*m_view);
        }
        useKeptPictures();
        return;
    }
    m_view.reset();
    Q_EMIT shotClosed();
    Q_EMIT failed(QString::fromStdString(view.error().message));
}

// Without the film, what is kept in the project takes its place.
void ReadingDesk::useKeptPictures() {
    if (core::project::isTally(m_view->clip) || std::filesystem::exists(m_view->file)) {
        m_keptOf.reset();
        m_kept.reset();
        return;
    }
    if (m_keptOf != m_view->shot.id) {
        m_kept = keptPicturesOf(m_store, m_view->shot.id);
        m_keptOf = m_view->shot.id;
    }
    m_view->kept = m_kept;
    if (m_kept && m_view->path.isEmpty()) {
        m_view->path = m_view->path.with(m_kept->balls());
    }
}

void ReadingDesk::onStoreChange(const Store::Change& change) {
    if (!m_view || m_isLeaving) {
        return;
    }
    const ShotId shot = m_view->shot.id;
    const bool concerns =
        change.allShots || change.clips || change.structure ||
        (m_second && change.secondReadings) ||
        std::find(change.shots.begin(), change.shots.end(), shot) != change.shots.end();
    if (!concerns) {
        return;
    }
    refreshView();
    if (m_view) {
        wantPictures(shot);
    }
}

void ReadingDesk::wantPictures(ShotId shot) {
    if (m_reader != nullptr) {
        m_isOnlyLooking ? m_reader->lookUp(shot) : m_reader->want(shot);
    }
}

void ReadingDesk::onPicturesRead(ShotId shot) {
    if (m_view && m_view->shot.id == shot) {
        refreshView();
    }
}

void ReadingDesk::refreshView() {
    rebuild(m_view->shot.id);
    if (!m_view) {
        return;
    }
    const FrameIndex before = m_frame;
    m_frame = std::clamp(m_frame, m_view->firstFrame(), m_view->lastFrame());
    const bool isWhereOpened = m_frame == m_openedAt && !m_view->shot.marks.start;
    if (isWhereOpened && m_view->tellingFrame() != m_frame) {  // the ball is found meanwhile
        Q_EMIT leavingFrame();
        m_frame = m_view->tellingFrame();
        m_openedAt = m_frame;
    }
    const double rowBefore = m_rowSeconds;
    adoptRowLength();
    Q_EMIT viewChanged();
    if (rowBefore != m_rowSeconds) {
        Q_EMIT rowChanged();
    }
    if (before != m_frame) {
        Q_EMIT frameChanged();
    }
}

void ReadingDesk::adoptRowLength() {
    if (!m_view->reading) {
        const auto* fromPictures = m_view->pictureReading();
        if (fromPictures != nullptr && m_rowOrigin != RowOrigin::Tuned) {
            m_rowSeconds = 60.0 / fromPictures->rate->value.rpm;
            m_rowOrigin = RowOrigin::Reading;
        }
        return;
    }
    // A row length that the reviewer has tuned by eye stays as long as the marks allow it.
    const auto& bounds = m_view->reading->bounds;
    const double rowRpm = 60.0 / m_rowSeconds;
    if (m_rowOrigin == RowOrigin::Tuned && bounds && rowRpm >= bounds->low.rpm &&
        rowRpm <= bounds->high.rpm) {
        return;
    }
    m_rowSeconds = m_view->reading->period.seconds;
    m_rowOrigin = RowOrigin::Reading;
}

void ReadingDesk::goToFrame(FrameIndex frame) {
    if (!m_view) {
        return;
    }
    const FrameIndex inside = std::clamp(frame, m_view->firstFrame(), m_view->lastFrame());
    m_openedAt.reset();
    if (inside != m_frame) {
        Q_EMIT leavingFrame();
        m_frame = inside;
        m_farBall.reset();
        Q_EMIT frameChanged();
    }
}

void ReadingDesk::stepFrames(int frames) {
    goToFrame({m_frame.value + frames});
}

void ReadingDesk::stepTurns(int turns) {
    if (m_view) {
        const double target = m_view->secondsOf(m_frame) + turns * m_rowSeconds;
        if (target > m_view->seconds.front() - m_rowSeconds / 2.0 &&
            target < m_view->seconds.back() + m_rowSeconds / 2.0) {
            goToFrame(m_view->frameNearest(target));
        }
    }
}

std::optional<BallRing> ReadingDesk::ballNow() const {
    return m_view ? m_view->ballIn(m_frame) : std::nullopt;
}

void ReadingDesk::setRowSeconds(double seconds) {
    if (!m_view) {
        return;
    }
    const double span = m_view->seconds.back() - m_view->seconds.front() + m_view->frameSeconds;
    const double shortest = kMinFramesPerRow * m_view->frameSeconds;
    const double inside = std::clamp(seconds, shortest, std::max(2.0 * span, shortest));
    if (inside != m_rowSeconds) {
        m_rowSeconds = inside;
        m_rowOrigin = RowOrigin::Tuned;
        Q_EMIT rowChanged();
    }
}

void ReadingDesk::rowFromReading() {
    if (m_view && m_view->reading) {
        setRowSeconds(m_view->reading->period.seconds);
        m_rowOrigin = RowOrigin::Reading;
    } else if (m_view && m_view->pictureReading() != nullptr) {
        setRowSeconds(60.0 / m_view->pictureReading()->rate->value.rpm);
        m_rowOrigin = RowOrigin::Reading;
    }
}

int ReadingDesk::gridTurns(FrameIndex frame) const {
    const double after = m_view->secondsOf(frame) - m_view->secondsOf(m_view->referenceFrame());
    return std::max(1, static_cast<int>(std::lround(after / m_rowSeconds)));
}

void ReadingDesk::putMarks(const MarkSet& marks) {
    if (marks != m_view->shot.marks) {
        m_chosenMethod.reset();  // what was set by hand last counts
        report(m_second ? m_store.setSecondMarks(*m_second, marks)
                        : m_store.setMarks(m_view->shot.id, marks));
    }
}

void ReadingDesk::toggleStart(FrameIndex frame) {
    if (m_view) {
        putMarks(withStartToggled(m_view->shot.marks, frame));
    }
}

void ReadingDesk::toggleReturn(FrameIndex frame) {
    if (!m_view) {
        return;
    }
    const auto& start = m_view->shot.marks.start;
    if (!start || frame <= start->frame) {
        Q_EMIT failed(start ? tr("A return comes after the start (frame %1). Step on, or move the "
                                 "start here with S.")
                                  .arg(start->frame.value)
                            : tr("First mark the start with S: the frame whose orientation the "
                                 "returns repeat."));
        return;
    }
    // Before any rate is known the grid's rows mean nothing: the first return is one turn.
    const bool isFirst = m_view->shot.marks.returns.empty() && m_rowOrigin == RowOrigin::Neutral;
    putMarks(withReturnToggled(m_view->shot.marks, frame, isFirst ? 1 : gridTurns(frame)));
}

void ReadingDesk::toggleBracket(FrameIndex before) {
    if (!m_view) {
        return;
    }
    const auto& start = m_view->shot.marks.start;
    if (!start || before < start->frame || before >= m_view->lastFrame()) {
        Q_EMIT failed(
            tr("A bracket lies between two frames after the start. Mark the start with "
               "S, then step to the frame before the orientation is back."));
        return;
    }
    const FrameIndex after{before.value + 1};
    const bool isFirst = m_view->shot.marks.returns.empty() && m_rowOrigin == RowOrigin::Neutral;
    putMarks(
        withBracketToggled(m_view->shot.marks, before, after, isFirst ? 1 : gridTurns(before)));
}

void ReadingDesk::setTurns(FrameIndex frame, int turns) {
    if (m_view && turns >= 1) {
        putMarks(withTurns(m_view->shot.marks, frame, turns));
    }
}

void ReadingDesk::setAngle(FrameIndex frame, core::Radians counterClockwise) {
    if (m_view) {
        putMarks(withAngle(m_view->shot.marks, frame, counterClockwise));
    }
}

void ReadingDesk::removeAngle(FrameIndex frame) {
    if (m_view) {
        putMarks(withoutAngle(m_view->shot.marks, frame));
    }
}

core::Result<void> ReadingDesk::checkBall(const BallRing& place) {
    const auto snapshot = m_store.snapshot();
    const auto* shot = snapshot->shots.find(m_view->shot.id);  // a second reading shows it as open
    if (shot != nullptr && shot->standing == core::project::ShotStanding::Kept) {
        return core::fail(
            core::ErrorCode::Contradiction,
            (m_second ? tr("This shot was kept with its ball here. A second reading does not move "
                           "it.")
                      : tr("This shot is kept, and a click does not change it. To move the ball, "
                           "press Reopen first."))
                .toStdString());
    }
    const bool isMeant =
        m_farBall && QLineF{m_farBall->centrePx, place.centrePx}.length() < 2.0 * place.radiusPx;
    if (!isMeant && m_view->path.isFarFrom(m_frame, place.centrePx.x(), place.centrePx.y())) {
        m_farBall = place;
        return core::fail(core::ErrorCode::InvalidInput,
                          tr("This is far from the path of the ball, so nothing was changed. If "
                             "the ball is there, click it again.")
                              .toStdString());
    }
    return core::ok();
}

core::Result<void> ReadingDesk::setBall(BallRing place) {
    CORE_EXPECTS(m_view.has_value());
    auto set = checkBall(place);
    if (set) {
        m_farBall.reset();
        auto clicks = m_view->shot.clicks;
        std::erase_if(clicks, [this](const auto& click) { return click.frame == m_frame; });
        const auto at = std::find_if(clicks.begin(), clicks.end(),
                                     [this](const auto& click) { return click.frame > m_frame; });
        clicks.insert(at, {m_frame, place.centrePx.x(), place.centrePx.y(), place.radiusPx});
        set = m_store.setClicks(m_view->shot.id, std::move(clicks));
    }
    report(set);
    return set;
}

bool ReadingDesk::keep() {
    if (!m_view) {
        return false;
    }
    return report(method() == Method::Pictures ? keepPictureReading(m_store, *m_view)
                                               : keepShot(m_store, *m_view));
}

std::optional<Method> ReadingDesk::method() const {
    return m_view ? methodToKeep(*m_view, m_chosenMethod) : std::nullopt;
}

void ReadingDesk::chooseMethod(Method method) {
    if (m_view && m_chosenMethod != method) {
        m_chosenMethod = method;
        Q_EMIT viewChanged();
    }
}

bool ReadingDesk::setAside(const QString& reason) {
    if (!m_view) {
        return false;
    }
    if (reason.trimmed().isEmpty()) {
        Q_EMIT failed(tr("Say why: the reason stays with the shot and is published with it."));
        return false;
    }
    return report(m_store.setAside(m_view->shot.id, reason.trimmed().toStdString()));
}

void ReadingDesk::reopen() {
    if (m_view) {
        report(m_store.reopen(m_view->shot.id));
    }
}

void ReadingDesk::toggleDoubtful() {
    if (m_view) {
        report(m_store.setDoubtful(m_view->shot.id, !m_view->shot.doubtful));
    }
}

bool ReadingDesk::report(const core::Result<void>& result) {
    Q_EMIT failed(result ? QString{} : QString::fromStdString(result.error().message));
    return static_cast<bool>(result);
}

}  // namespace ui::reading
