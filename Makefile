# Few words; all of them call the one script.
.PHONY: demo serve test check fix docs speed help
.DEFAULT_GOAL := help

demo serve test check fix docs speed help:
	@./run $@
