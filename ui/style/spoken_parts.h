#pragma once

#include <QRect>
#include <QString>
#include <QWidget>
#include <functional>
#include <vector>

namespace ui::style {

/// One thing that a painted widget shows, for a screen reader: a frame, a block, a point.
struct SpokenPart {
    QString name;
    QString value{};                ///< what is said after the name
    QRect place{};                  ///< in the widget's coordinates
    bool isCurrent{false};          ///< the one that the keyboard is at
    std::function<void()> press{};  ///< what a click on it does; empty: nothing
};

/// A widget that paints things instead of being made of widgets derives from this, and calls
/// sayCurrent() when another part becomes the current one. Screen readers then find a list of the
/// parts (QAccessible).
class SpokenParts {
public:
    virtual ~SpokenParts() = default;
    /// In the order in which they are gone through; asked anew each time.
    [[nodiscard]] virtual std::vector<SpokenPart> spokenParts() = 0;

protected:
    SpokenParts();
    /// The current part is said, where somebody listens.
    void sayCurrent(QWidget& widget);
};

}  // namespace ui::style
