#pragma once

#include <QHash>
#include <QImage>
#include <QObject>
#include <vector>

#include "core/jobs/memory_budget.h"
#include "ui/bridge/frame_requester.h"
#include "ui/reading/shot/shot_view.h"

namespace ui::reading {

/// The small pictures of a shot, one a frame: cut out around the ball with the flight removed, or
/// the whole frame in a square as long as nobody has pointed at the ball.
class BallPictures : public QObject {
    Q_OBJECT

public:
    /// Half the side of a cut-out, in ball radii.
    static constexpr double kHalfSideRadii = 1.45;

    explicit BallPictures(bridge::FrameRequester& requester, QObject* parent = nullptr);

    /// Asks for the pictures of this shot again if the shot or its ball has changed. Pictures of
    /// the same shot stay until their successors arrive.
    void show(const ShotView& view, bridge::FrameRequester::Clip clip);
    /// The same from the pictures kept in the project, which the view must have. They are there at
    /// once.
    void showKept(const ShotView& view);
    void clear();

    /// Null while it is not there.
    [[nodiscard]] QImage picture(core::timebase::FrameIndex frame) const;
    [[nodiscard]] QString failure(core::timebase::FrameIndex frame) const;
    /// Whether the pictures are cut out around the ball.
    [[nodiscard]] bool areCutOut() const noexcept { return m_areCutOut; }
    [[nodiscard]] bool areComplete() const noexcept { return m_awaited == 0; }

Q_SIGNALS:
    void changed(core::timebase::FrameIndex frame);
    /// Every picture that was asked for is there or has failed.
    void completed();

private:
    /// False when the pictures of this state were asked for already.
    bool ask(const ShotView& view);
    void take(quint64 number, qint64 frame, const QImage& picture, const QString& failure);

    bridge::FrameRequester& m_requester;
    core::project::ShotId m_shot;
    std::vector<bridge::CutOut> m_asked;
    quint64 m_number{0};
    qsizetype m_awaited{0};
    bool m_areCutOut{false};
    QHash<qint64, QImage> m_pictures;
    QHash<qint64, QString> m_failures;
    core::jobs::MemoryBudget::Holding m_held{core::jobs::MemoryBudget::ofProgram(),
                                             core::jobs::MemoryUse::CutOuts};
};

}  // namespace ui::reading
