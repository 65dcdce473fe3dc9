#pragma once

#include <QSplitter>
#include <optional>

#include "core/project/ids.h"

namespace ui::reading {

class OtherShot;
class PictureReader;
class ReadingDesk;
class TurnGrid;
class TurnGridPanel;

/// The turn grid of the shot under review and, when it is asked for, that of another shot beside
/// it, or below it where there is little room. Both have one time axis: what was taken equally long
/// after the start lies at the same place of both, a row is one turn at the rate of the shot under
/// review, and both scroll together. Confined.
class BesideView : public QSplitter {
    Q_OBJECT

public:
    /// Takes the panel in. All must outlive the view. reader: null where pictures are not read.
    BesideView(TurnGridPanel& own, ReadingDesk& desk, PictureReader* reader,
               QWidget* parent = nullptr);

    void showOther(core::project::ShotId shot);
    void hideOther();
    /// Null while none is shown.
    [[nodiscard]] OtherShot* other() noexcept { return m_other; }
    void setNamesHidden(bool hidden);

Q_SIGNALS:
    /// Another shot is shown, or none is now.
    void changed(bool isOtherShown);

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void makeOther();
    void follow();
    void align();
    void turn();

    TurnGridPanel& m_own;
    ReadingDesk& m_desk;
    PictureReader* m_reader;
    OtherShot* m_other{};
    bool m_areNamesHidden{false};
    bool m_isAligning{false};
};

}  // namespace ui::reading
