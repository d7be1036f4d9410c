"""From a bare route to complete arrangements, each proved by its own study.     (choose/arrange/)"""
