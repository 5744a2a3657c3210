"""Words of a command that are wrong by themselves: one sentence, exit code 2."""


def test_a_word_too_many_is_named_as_typed_with_where_to_look(run):
    code, _, err = run("work", "tighten", "trial", "caps", "1", "[red]900")
    assert code == 2
    assert '"[red]900": more than this command takes' in err
    assert "fitwright work tighten" in err


def test_a_file_that_is_not_there_is_named_with_what_to_do(run, tmp_path):
    code, _, err = run("verify", tmp_path / "none.pdf")
    assert code == 2
    assert err.startswith(f"{tmp_path / 'none.pdf'}: No such file or directory; name another file")
