#pragma once

#include <QToolButton>

namespace ui::shell {

/// The name of the project over that of who reads it; pressed, it asks who reads. Confined.
class ProjectButton : public QToolButton {
    Q_OBJECT

public:
    explicit ProjectButton(QWidget* parent = nullptr);
    void setProject(const QString& name);

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QString m_project;
};

}  // namespace ui::shell
