"""Lessons: objectives in measurable words, each with what is shown, practised and asked.

Public: `lesson.Lesson`, `lesson.read`, `lesson.read_all`.
"""
