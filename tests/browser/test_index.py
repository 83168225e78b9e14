"""The first page opens the lessons, before anything is run."""


def test_a_link_in_the_table_opens_its_lesson(open_notebook, window):
    open_notebook("lessons/index.ipynb")
    window.get_by_role("link", name="10. Choosing the change").first.click()
    window.get_by_role("heading", name="Lesson 10. Choosing the change").wait_for()
