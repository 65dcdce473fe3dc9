#pragma once

#include <QObject>

#include "core/project/ids.h"

class QPoint;

namespace ui::findings {

class RankedView;

/// The menu of a row of the ranking, by the pointer or by the key for menus: to its shots in
/// Reading, to its doubts, copied. Confined.
class RankedMenu : public QObject {
    Q_OBJECT

public:
    explicit RankedMenu(RankedView& view);

Q_SIGNALS:
    void readingWanted(core::project::ImplementId implement);
    void doubtsWanted(core::project::ImplementId implement);

private:
    void show(const QPoint& at);

    RankedView& m_view;
};

}  // namespace ui::findings
