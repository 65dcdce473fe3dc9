#pragma once

#include <QList>
#include <QPair>
#include <QString>
#include <QWidget>

class QGridLayout;

namespace ui::reading {

/// Names and values, one pair a line; long values wrap.
class FactList : public QWidget {
    Q_OBJECT

public:
    explicit FactList(QWidget* parent = nullptr);
    void setFacts(const QList<QPair<QString, QString>>& facts);

private:
    QGridLayout* m_grid;
};

}  // namespace ui::reading
