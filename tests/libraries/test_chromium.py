"""The system's Chromium answers to playwright."""


def test_a_page_opens_and_runs_its_script(browser):
    page = browser.new_page()
    page.set_content("<title>bench</title><p id=p></p><script>p.textContent = 6 * 7</script>")
    assert page.title() == "bench"
    assert page.locator("#p").inner_text() == "42"
