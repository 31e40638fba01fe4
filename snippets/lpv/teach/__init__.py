"""Lessons: objectives in measurable words, each with what is shown, practiced and asked.

Public: `lesson.Lesson`, `lesson.read`, `lesson.read_all`.
"""
