#pragma once

#include <QWidget>
#include <memory>

#include "core/media/frames/frame_service.h"
#include "ui/reading/grid/ball_pictures.h"
#include "ui/reading/grid/turn_grid.h"
#include "ui/reading/reading_desk.h"

class QLabel;

namespace ui::reading {

/// The turn grid of a second shot, to look at: nothing of it is marked or read here. Confined.
class OtherShot : public QWidget {
    Q_OBJECT

public:
    /// Both must outlive it. reader: null where pictures are not read.
    OtherShot(core::project::Store& store, PictureReader* reader, QWidget* parent = nullptr);

    void open(core::project::ShotId shot, bool areNamesHidden);
    /// Rows as long as this; a row is one turn at the rate of the shot under review.
    void setRowSeconds(double seconds);
    /// To the frame so long after the start, or after the first frame where none is marked.
    void goTo(double secondsAfterReference);
    [[nodiscard]] TurnGrid& grid() noexcept { return *m_grid; }
    [[nodiscard]] ReadingDesk& desk() noexcept { return m_desk; }
    [[nodiscard]] BallPictures& pictures() noexcept { return m_pictures; }

Q_SIGNALS:
    void closeWanted();

private:
    void showShot();
    void showWords();

    std::unique_ptr<core::media::FrameService> m_frames;  ///< the other shot's go on undisturbed
    bridge::FrameRequester m_requester;
    ReadingDesk m_desk;
    BallPictures m_pictures;
    double m_rowSeconds{};
    TurnGrid* m_grid;
    QLabel* m_words;
};

}  // namespace ui::reading
