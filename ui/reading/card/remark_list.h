#pragma once

#include <QWidget>

#include "ui/reading/card/reading_words.h"

class QVBoxLayout;

namespace ui::reading {

/// Remarks one under the other, each with the shape of its kind before its words.
class RemarkList : public QWidget {
    Q_OBJECT

public:
    explicit RemarkList(QWidget* parent = nullptr);
    void setRemarks(const QList<Remark>& remarks);

private:
    QVBoxLayout* m_lines;
};

}  // namespace ui::reading
