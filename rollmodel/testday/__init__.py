"""The test day: measure the car, plan the runs, read them, learn from them, keep a log.

Constant-radius runs after ISO 4138, named for its method: steady states at rising lateral acceleration on
one circle, both ways round, repeated. What is taken from the standard from memory is said where it is used.
Nothing here certifies a car or a test.
"""
